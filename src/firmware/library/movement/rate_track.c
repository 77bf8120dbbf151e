/* Generated from SensorSim.Detection/Movement/RateTrack.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "movement/movement_words.h"
#include "movement/rate_track.h"

static int32_t ss_rate_track_better(const ss_rate_track_t *self, int32_t arrears, int32_t from, int32_t price);

void ss_rate_track_restart(ss_rate_track_t *self, int32_t states)
{
    *self = (ss_rate_track_t){ 0 };
    self->states = states;
}

void ss_rate_track_add(ss_rate_track_t *self, const ss_half80_t *evidence)
{
    ss_half80_t next = (ss_half80_t){ 0 };
    int32_t least = INT32_MAX;
    int32_t best = 0;
    for (int32_t s = 0; s < self->states; s++) {
        int32_t arrears = self->arrears.at[s];
        arrears = ss_rate_track_better(self, arrears, s - 1, SS_RATE_TRACK_ONE_BIN);
        arrears = ss_rate_track_better(self, arrears, s + 1, SS_RATE_TRACK_ONE_BIN);
        arrears = ss_rate_track_better(self, arrears, s - 2, SS_RATE_TRACK_TWO_BINS);
        arrears = ss_rate_track_better(self, arrears, s + 2, SS_RATE_TRACK_TWO_BINS);
        arrears -= ss_shift_round(evidence->at[s], SS_RATE_TRACK_NEW_SHARE_SHIFT);
        next.at[s] = (int16_t)arrears;
        if (arrears < least) {
            least = arrears;
            best = s;
        }
    }

    int32_t other = SS_RATE_TRACK_MOST;
    for (int32_t s = 0; s < self->states; s++) {
        int32_t arrears = next.at[s] - least;
        arrears = (arrears < SS_RATE_TRACK_MOST) ? arrears : SS_RATE_TRACK_MOST;
        self->arrears.at[s] = (uint8_t)arrears;
        other = ((ss_sat_abs32(s - best) > SS_RATE_TRACK_NEIGHBOURS) && (arrears < other)) ? arrears : other;
    }

    self->best = best;
    self->margin = ss_shift_left32(other, SS_RATE_TRACK_UNIT_SHIFT);
}

static int32_t ss_rate_track_better(const ss_rate_track_t *self, int32_t arrears, int32_t from, int32_t price)
{
    if ((from < 0) || (from >= self->states)) {
        return arrears;
    }

    int32_t other = self->arrears.at[from] + price;
    return (other < arrears) ? other : arrears;
}
