/* Generated from SensorSim.Detection/Beats/BeatGaps.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_gaps.h"
#include "beats/beat_windows.h"
#include "beats/beat_words.h"
#include "fixed_point/long_division.h"

void ss_beat_gaps_restart(ss_beat_gaps_t *self)
{
    self->is_open = false;
    self->is_aimed = false;
    self->length = 0;
    for (int32_t i = 0; i < SS_WIDE4_LENGTH; i++) {
        self->from.at[i] = INT64_MAX;
        self->until.at[i] = INT64_C(0);
    }
}

void ss_beat_gaps_open(ss_beat_gaps_t *self, const ss_beat_windows_t *w, int64_t next, int64_t index)
{
    if (!self->is_open) {
        self->at++;
        self->from.at[self->at & (SS_WIDE4_LENGTH - 1)] = next;
    }

    int64_t length = index - self->from.at[self->at & (SS_WIDE4_LENGTH - 1)];
    self->is_long = (length < INT64_C(0)) || (length > (int64_t)w->bridge);
    self->until.at[self->at & (SS_WIDE4_LENGTH - 1)] = self->is_long ? INT64_MAX : index;
    self->length = self->is_long ? w->tail : (int32_t)length;
    self->is_open = true;
}

void ss_beat_gaps_aim(ss_beat_gaps_t *self, int32_t code)
{
    if (self->is_aimed) {
        return;
    }

    self->is_aimed = true;
    self->value256 = (int64_t)self->last * INT64_C(256);
    int64_t rise = self->is_long ? INT64_C(0) : (((int64_t)code - (int64_t)self->last) * INT64_C(256));
    int32_t step = ss_long_division_rounded((uint64_t)((rise < INT64_C(0)) ? -rise : rise), (uint32_t)self->length + UINT32_C(1));
    self->step256 = (int64_t)((rise < INT64_C(0)) ? -step : step);
}

bool ss_beat_gaps_try_fill(ss_beat_gaps_t *self, int32_t *code)
{
    self->value256 += self->step256;
    (*code) = (int32_t)ss_shift_right64(self->value256, 8);
    if (self->length > 0) {
        self->length--;
        return true;
    }

    self->is_open = false;
    self->is_aimed = false;
    return false;
}

bool ss_beat_gaps_holds(const ss_beat_gaps_t *self, int64_t index)
{
    for (int32_t i = 0; i < SS_WIDE4_LENGTH; i++) {
        if ((index >= self->from.at[i]) && (index < self->until.at[i])) {
            return true;
        }
    }

    return false;
}
