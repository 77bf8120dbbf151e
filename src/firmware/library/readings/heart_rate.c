/* Generated from SensorSim.Detection/Readings/HeartRate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "fixed_point/long_division.h"
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "readings/beat_clock.h"
#include "readings/heart_rate.h"
#include "readings/regularity.h"
#include "readings/rings.h"

static bool ss_heart_rate_is_alike(const ss_heart_rate_t *self, const ss_word8_t *recent, int32_t used);
static bool ss_heart_rate_decide(ss_heart_rate_t *self);

void ss_heart_rate_start(ss_heart_rate_t *self, ss_common_clock_t clock, ss_reading_kind_t kind)
{
    *self = (ss_heart_rate_t){ 0 };
    self->kind = kind;
    ss_beat_clock_start(&self->clock, clock);
    self->longest = (int32_t)(ss_beat_clock_units_per_second(&self->clock) * (int64_t)SS_HEART_RATE_LONGEST_S);
}

bool ss_heart_rate_add(ss_heart_rate_t *self, int64_t ticks256, bool starts_run, uint8_t quality)
{
    int32_t interval = self->has_last ? ss_beat_clock_span(&self->clock, self->last256, ticks256) : 0;
    self->last256 = ticks256;
    self->has_last = true;
    if (starts_run || (interval == 0) || (interval > self->longest)) {
        self->count = 0;
        return false;
    }

    self->intervals.at[self->at] = interval;
    self->qualities.at[self->at] = quality;
    self->at = (uint8_t)((self->at + 1) & (SS_HEART_RATE_MOST - 1));
    self->count = (uint8_t)((self->count < SS_HEART_RATE_MOST) ? (self->count + 1) : SS_HEART_RATE_MOST);
    return (self->count >= SS_HEART_RATE_LEAST) && ss_heart_rate_decide(self);
}

/* Whether the newest intervals lie within 3/16 of the median: of a few, one that is cut in two or runs to a false beat moves the rate too far. */
static bool ss_heart_rate_is_alike(const ss_heart_rate_t *self, const ss_word8_t *recent, int32_t used)
{
    ss_view_int32_t newest = ss_view_int32_slice(ss_view_int32_of(recent->at, 8), self->count - used, used);
    int32_t middle = ss_median_of_up_to8(newest);
    int32_t near_ = ss_shift_floor(3 * middle, 4);
    for (int32_t i = 0; i < used; i++) {
        if (ss_sat_abs32(newest.at[i] - middle) > near_) {
            return false;
        }
    }

    return true;
}

static bool ss_heart_rate_decide(ss_heart_rate_t *self)
{
    ss_word8_t recent = (ss_word8_t){ 0 };
    for (int32_t i = 0; i < self->count; i++) {
        recent.at[i] = self->intervals.at[(self->at - self->count + i) & (SS_HEART_RATE_MOST - 1)];
    }

    bool is_regular = false;
    int32_t used = ss_regularity_usable(&recent, self->count, &is_regular);
    if (used < SS_HEART_RATE_LEAST) {
        return false;
    }

    if ((used < SS_HEART_RATE_MOST) && !ss_heart_rate_is_alike(self, &recent, used)) {
        return false;
    }

    int32_t span = 0;
    int32_t trust = 0;
    for (int32_t i = self->count - used; i < self->count; i++) {
        span += recent.at[i];
        trust += self->qualities.at[(self->at - self->count + i) & (SS_HEART_RATE_MOST - 1)];
    }

    self->rate_milli_bpm = ss_long_division_rounded(UINT64_C(60000) * (uint64_t)(uint32_t)used * (uint64_t)ss_beat_clock_units_per_second(&self->clock), (uint32_t)span);
    self->span = span;
    self->end256 = self->last256;

    /* Eight trusted intervals are worth 255, four of them half; a quarter less when they differ. */
    trust = ss_shift_floor(trust, 3);
    self->quality = (uint8_t)(is_regular ? trust : (trust - ss_shift_floor(trust, 2)));
    return true;
}
