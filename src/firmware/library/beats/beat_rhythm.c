/* Generated from SensorSim.Detection/Beats/BeatRhythm.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_rhythm.h"
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/words.h"

void ss_beat_rhythm_add(ss_beat_rhythm_t *self, int32_t rr)
{
    if (self->count == 0) {
        for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
            self->rr.at[i] = rr;
        }
    }

    self->rr.at[self->at & (SS_WORD8_LENGTH - 1)] = rr;
    self->at++;
    self->count += (self->count < SS_WORD8_LENGTH) ? 1 : 0;
    self->median = ss_median_of_up_to8(ss_view_int32_of(self->rr.at, 8));
    int32_t sum = 0;
    int32_t near_ = 0;
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        sum += self->rr.at[i];
        near_ += ss_beat_rhythm_is_usual(self, self->rr.at[i]) ? 1 : 0;
    }

    self->mean = ss_shift_right32(sum, 3);
    self->is_regular = (self->count == SS_WORD8_LENGTH) && (near_ >= 6);
}

bool ss_beat_rhythm_is_usual(const ss_beat_rhythm_t *self, int32_t rr)
{
    return ss_sat_abs32(rr - self->median) <= ss_shift_right32(self->median, 3);
}

bool ss_beat_rhythm_is_long(const ss_beat_rhythm_t *self, int32_t rr)
{
    return (self->count > 0) && (rr > (self->median + ss_shift_right32(self->median, 2) + ss_shift_right32(self->median, 3)));
}
