/* Generated from SensorSim.Detection/Movement/HalfRing.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "movement/half_ring.h"
#include "movement/movement_words.h"

static void ss_half_ring_rescale(ss_half_ring_t *self, int32_t bits);

void ss_half_ring_restart(ss_half_ring_t *self, int32_t length)
{
    *self = (ss_half_ring_t){ 0 };
    self->length = length;
}

int32_t ss_half_ring_at(const ss_half_ring_t *self, int32_t age)
{
    int32_t at = self->at + age;
    return self->held.at[(at < self->length) ? at : (at - self->length)];
}

void ss_half_ring_add(ss_half_ring_t *self, int32_t value)
{
    int32_t scaled = ss_shift_round(value, self->exponent);
    while ((scaled > SS_HALF_RING_HIGH) || (scaled < -16384)) {
        ss_half_ring_rescale(self, 1);
        scaled = ss_shift_round(value, self->exponent);
    }

    self->held.at[self->at] = (int16_t)scaled;
    self->at = ((self->at + 1) == self->length) ? 0 : (self->at + 1);
}

void ss_half_ring_settle(ss_half_ring_t *self)
{
    int32_t largest = 0;
    for (int32_t i = 0; i < self->length; i++) {
        int32_t size = (self->held.at[i] < 0) ? -self->held.at[i] : self->held.at[i];
        largest = (size > largest) ? size : largest;
    }

    while ((self->exponent > 0) && (largest < SS_HALF_RING_LOW)) {
        ss_half_ring_rescale(self, -1);
        largest = ss_shift_left32(largest, 1);
    }
}

static void ss_half_ring_rescale(ss_half_ring_t *self, int32_t bits)
{
    self->exponent += bits;
    for (int32_t i = 0; i < self->length; i++) {
        self->held.at[i] = (int16_t)((bits > 0) ? ss_shift_round(self->held.at[i], 1) : ss_shift_left32(self->held.at[i], 1));
    }
}
