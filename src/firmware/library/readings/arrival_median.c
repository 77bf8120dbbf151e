/* Generated from SensorSim.Detection/Readings/ArrivalMedian.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "readings/arrival_median.h"
#include "readings/rings.h"

int32_t ss_arrival_median_value(const ss_arrival_median_t *self, int32_t otherwise)
{
    if (self->count < SS_ARRIVAL_MEDIAN_ENOUGH) {
        return otherwise;
    }

    ss_word8_t times = (ss_word8_t){ 0 };
    for (int32_t i = 0; i < self->count; i++) {
        times.at[i] = self->times.at[i];
    }

    return ss_shift_left32(ss_median_of_up_to8(ss_view_int32_slice(ss_view_int32_of(times.at, 8), 0, self->count)),
        SS_ARRIVAL_MEDIAN_STEPS);
}

void ss_arrival_median_add(ss_arrival_median_t *self, int32_t time_us)
{
    self->strays = 0;
    self->history = (uint8_t)(ss_shift_left32(self->history, 1) & 255);
    self->times.at[self->at] = (uint16_t)ss_shift_round(time_us, SS_ARRIVAL_MEDIAN_STEPS);
    self->at = (uint8_t)((self->at + 1) & (SS_READINGS_HALF8_LENGTH - 1));
    self->count = (uint8_t)((self->count < SS_READINGS_HALF8_LENGTH) ? (self->count + 1) : SS_READINGS_HALF8_LENGTH);
}

int32_t ss_arrival_median_unrest(const ss_arrival_median_t *self)
{
    int32_t strays = 0;
    for (int32_t i = 0; i < 8; i++) {
        strays += ss_shift_right_zero32(self->history, i) & 1;
    }

    if (self->count < SS_READINGS_HALF8_LENGTH) {
        return 16 * strays;
    }

    int32_t low = 65535;
    int32_t lower = 65535;
    int32_t high = 0;
    int32_t higher = 0;
    for (int32_t i = 0; i < self->count; i++) {
        int32_t time = self->times.at[i];
        lower = (time < low) ? low : ((time < lower) ? time : lower);
        low = (time < low) ? time : low;
        higher = (time > high) ? high : ((time > higher) ? time : higher);
        high = (time > high) ? time : high;
    }

    /* Steps of 8 µs: 32 of them are about a quarter of a millisecond. */
    return (16 * strays) + ss_shift_floor(higher - lower, 5);
}

void ss_arrival_median_begin(ss_arrival_median_t *self, int32_t time_us)
{
    uint8_t history = self->history;
    *self = (ss_arrival_median_t){ 0 };
    self->history = history;
    for (int32_t i = 1; i < SS_ARRIVAL_MEDIAN_ENOUGH; i++) {
        ss_arrival_median_add(self, time_us);
    }
}

bool ss_arrival_median_is_moved(ss_arrival_median_t *self, int32_t time_us, int32_t far_us, int32_t patience)
{
    if ((self->strays == 0) || (ss_sat_abs32(time_us - ss_shift_left32(self->first, SS_ARRIVAL_MEDIAN_STEPS)) > far_us)) {
        self->first = (uint16_t)ss_shift_round(time_us, SS_ARRIVAL_MEDIAN_STEPS);
        self->strays = 0;
    }

    self->history = (uint8_t)((ss_shift_left32(self->history, 1) | 1) & 255);
    self->strays++;
    return self->strays >= patience;
}
