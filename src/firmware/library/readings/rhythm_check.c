/* Generated from SensorSim.Detection/Readings/RhythmCheck.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "readings/beat_clock.h"
#include "readings/rhythm_check.h"
#include "readings/rings.h"

static bool ss_rhythm_check_look(ss_rhythm_check_t *self);
static ss_rhythm_check_matches_t ss_rhythm_check_count(const ss_rhythm_check_t *self, int32_t near_);
static uint32_t ss_rhythm_check_like(const ss_rhythm_check_t *self, int32_t place, int32_t near_);
static int32_t ss_rhythm_check_at(const ss_rhythm_check_t *self, int32_t place);
static bool ss_rhythm_check_is_missing(uint32_t present, int32_t place);

void ss_rhythm_check_start(ss_rhythm_check_t *self, ss_common_clock_t clock)
{
    *self = (ss_rhythm_check_t){ 0 };
    ss_beat_clock_start(&self->clock, clock);
}

bool ss_rhythm_check_shut(ss_rhythm_check_t *self)
{
    bool is_changed = self->is_irregular;
    self->is_irregular = false;
    self->held = 0;
    self->votes = 0;
    self->since_look = 0;
    self->has_last = false;
    return is_changed;
}

bool ss_rhythm_check_add(ss_rhythm_check_t *self, int64_t ticks256, bool starts_run, bool is_normal)
{
    int32_t interval = self->has_last ? ss_beat_clock_steps(&self->clock, ss_beat_clock_span(&self->clock, self->last256, ticks256),
        SS_RHYTHM_CHECK_STEPS_PER_SECOND) : 0;
    bool is_first = !self->has_last;
    bool is_usable = !is_first && !starts_run && is_normal && self->was_normal && (interval < SS_RHYTHM_CHECK_LONGEST);
    self->last256 = ticks256;
    self->has_last = true;
    self->was_normal = is_normal;
    if (is_first) {
        return false;
    }

    self->intervals.at[self->at] = (uint16_t)(is_usable ? interval : 0);
    self->at = (uint8_t)((self->at + 1) & (SS_RHYTHM_CHECK_KEPT - 1));
    self->held = (uint8_t)((self->held < SS_RHYTHM_CHECK_KEPT) ? (self->held + 1) : SS_RHYTHM_CHECK_KEPT);
    self->since_look++;
    if ((self->held < SS_RHYTHM_CHECK_KEPT) || (self->since_look < SS_RHYTHM_CHECK_EVERY)) {
        return false;
    }

    self->since_look = 0;
    return ss_rhythm_check_look(self);
}

static bool ss_rhythm_check_look(ss_rhythm_check_t *self)
{
    uint32_t sum = UINT32_C(0);
    uint32_t count = UINT32_C(0);
    for (int32_t i = 0; i < SS_RHYTHM_CHECK_KEPT; i++) {
        sum += (uint32_t)self->intervals.at[i];
        count += (self->intervals.at[i] == 0) ? UINT32_C(0) : UINT32_C(1);
    }

    if (count < (uint32_t)SS_RHYTHM_CHECK_LEAST) {
        self->votes = 0;
        return false;
    }

    ss_rhythm_check_matches_t matches = ss_rhythm_check_count(self, ss_long_division_rounded((uint64_t)sum, UINT32_C(12) * count));
    bool is_low = ((8 * matches.two) <= (3 * matches.one)) && ((2 * matches.three) <= matches.two_asked);
    bool is_high = ((2 * matches.two) > matches.one) || ((8 * matches.three) > (5 * matches.two_asked));
    bool is_against = self->is_irregular ? is_high : is_low;
    self->votes = (uint8_t)(is_against ? (self->votes + 1) : 0);
    if (self->votes < SS_RHYTHM_CHECK_AGREE) {
        return false;
    }

    self->votes = 0;
    self->is_irregular = !self->is_irregular;
    return true;
}

/* How many pairs of places match in one, in two and in three intervals in a row. */
static ss_rhythm_check_matches_t ss_rhythm_check_count(const ss_rhythm_check_t *self, int32_t near_)
{
    /* A word for each place: a bit for each later one that it matches. */
    ss_mask32_t like = (ss_mask32_t){ 0 };
    uint32_t present = UINT32_C(0);
    for (int32_t i = SS_RHYTHM_CHECK_KEPT - 1; i >= 0; i--) {
        /* Missing intervals are 0 and match nothing. */
        like.at[i] = ss_rhythm_check_like(self, i, near_) & present;
        present |= (ss_rhythm_check_at(self, i) == 0) ? UINT32_C(0) : ss_shift_leftu32(UINT32_C(1), i);
    }

    ss_rhythm_check_matches_t matches = (ss_rhythm_check_matches_t){ 0 };
    for (int32_t i = 0; i < (SS_RHYTHM_CHECK_KEPT - 1); i++) {
        /* Bit j speaks of the pair i and j; its neighbours after both come to the same place by a shift. */
        uint32_t one = ss_rhythm_check_is_missing(present, i + 1) ? UINT32_C(0) : (like.at[i] & (present >> 1));
        uint32_t two = one & (like.at[i + 1] >> 1);
        matches.one += ss_ones32(one);
        matches.two += ss_ones32(two);

        /* The last place has no third: such pairs say nothing about the second question. */
        uint32_t asked = (((i + 2) >= SS_RHYTHM_CHECK_KEPT) || ss_rhythm_check_is_missing(present, i + 2)) ? UINT32_C(0)
            : (two & (present >> 2));
        matches.two_asked += ss_ones32(asked);
        matches.three += (asked == UINT32_C(0)) ? 0 : ss_ones32(asked & (like.at[i + 2] >> 2));
    }

    return matches;
}

static uint32_t ss_rhythm_check_like(const ss_rhythm_check_t *self, int32_t place, int32_t near_)
{
    int32_t one = ss_rhythm_check_at(self, place);
    uint32_t bits = UINT32_C(0);
    for (int32_t j = place + 1; j < SS_RHYTHM_CHECK_KEPT; j++) {
        int32_t other = ss_rhythm_check_at(self, j);
        uint32_t is_like = (ss_sat_abs32(one - other) <= near_) ? UINT32_C(1) : UINT32_C(0);
        bits |= ss_shift_leftu32(is_like, j);
    }

    return (one == 0) ? UINT32_C(0) : bits;
}

static int32_t ss_rhythm_check_at(const ss_rhythm_check_t *self, int32_t place)
{
    return self->intervals.at[(self->at + place) & (SS_RHYTHM_CHECK_KEPT - 1)];
}

static bool ss_rhythm_check_is_missing(uint32_t present, int32_t place)
{
    return (ss_shift_rightu32(present, place) & UINT32_C(1)) == UINT32_C(0);
}
