/* Generated from SensorSim.Detection/Movement/CadenceTracker.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/parabola.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "fixed_point/words.h"
#include "movement/cadence_tracker.h"
#include "movement/movement_reference.h"
#include "movement/movement_words.h"

static void ss_cadence_tracker_add_upward(ss_cadence_tracker_t *self);
static int64_t ss_cadence_tracker_repeats(const ss_cadence_tracker_t *self, int32_t lag);
static void ss_cadence_tracker_decide(ss_cadence_tracker_t *self);
static bool ss_cadence_tracker_is_peak(const ss_word64_t *repeats, int32_t lag);
static int32_t ss_cadence_tracker_first_peak(ss_cadence_tracker_t *self, const ss_word64_t *repeats);
static int32_t ss_cadence_tracker_finer(const ss_word64_t *repeats, int32_t first);

bool ss_cadence_tracker_start(ss_cadence_tracker_t *self, int32_t rate_hz, int32_t codes_per_g)
{
    if (!ss_movement_reference_is_allowed(rate_hz, codes_per_g)) {
        return false;
    }

    *self = (ss_cadence_tracker_t){ 0 };
    self->decimation = (rate_hz < 25) ? 1 : (((2 * rate_hz) + 12) / 25);
    self->rate_milli_hz = (rate_hz * 1000) / self->decimation;
    self->scale = (int32_t)((INT64_C(1) << 26) / ((int64_t)codes_per_g * (int64_t)self->decimation));
    self->every = ((2 * self->rate_milli_hz) + 500) / 1000;
    return true;
}

bool ss_cadence_tracker_next(ss_cadence_tracker_t *self, int32_t x, int32_t y, int32_t z)
{
    self->sums.at[0] += x;
    self->sums.at[1] += y;
    self->sums.at[2] += z;
    self->phase++;
    int32_t value = self->phase;
    if (value < self->decimation) {
        return false;
    }

    self->phase = 0;
    ss_cadence_tracker_add_upward(self);
    self->since++;
    int32_t value_2 = self->since;
    if ((value_2 < self->every) || (self->filled < SS_CADENCE_TRACKER_RING)) {
        return false;
    }

    self->since = 0;
    ss_cadence_tracker_decide(self);
    return true;
}

static void ss_cadence_tracker_add_upward(ss_cadence_tracker_t *self)
{
    int64_t up = INT64_C(0);
    for (int32_t axis = 0; axis < 3; axis++) {
        /* In 1/1024 g; gravity with 12 bits more, a mean of 32 samples. */
        int32_t value = ss_wide_narrow(ss_wide_round((int64_t)self->sums.at[axis] * (int64_t)self->scale, 16), 2 * SS_CADENCE_TRACKER_RAIL);
        self->sums.at[axis] = 0;
        if (self->filled == 0) {
            self->gravity.at[axis] = ss_shift_left32(value, 12);
        }

        int32_t level = ss_shift_round(self->gravity.at[axis], 12);
        up += (int64_t)(value - level) * (int64_t)level;
        self->gravity.at[axis] += ss_shift_round(ss_shift_left32(value, 12) - self->gravity.at[axis], 5);
    }

    self->held.at[self->at & (SS_CADENCE_TRACKER_RING - 1)] = (int16_t)ss_wide_narrow(ss_wide_round(up, 10), SS_CADENCE_TRACKER_RAIL);
    self->at = (self->at + 1) & (SS_CADENCE_TRACKER_RING - 1);
    self->filled += (self->filled < SS_CADENCE_TRACKER_RING) ? 1 : 0;
}

static int64_t ss_cadence_tracker_repeats(const ss_cadence_tracker_t *self, int32_t lag)
{
    int64_t sum = INT64_C(0);
    for (int32_t i = 0; i < SS_CADENCE_TRACKER_PRODUCTS; i++) {
        int32_t now = self->at - 1 - i;
        sum += (int64_t)self->held.at[now & (SS_CADENCE_TRACKER_RING - 1)] * (int64_t)self->held.at[(now - lag) & (SS_CADENCE_TRACKER_RING
            - 1)];
    }

    return sum;
}

static void ss_cadence_tracker_decide(ss_cadence_tracker_t *self)
{
    /* 32 words: lags 0 to 24, so that 23 has both neighbours; 22 bits after a common shift. */
    int64_t power = ss_cadence_tracker_repeats(self, 0);
    self->cadence_milli_per_min = 0;
    self->quality = 0;
    self->is_from_stride = false;
    if (power < ((int64_t)SS_CADENCE_TRACKER_LEAST_MG * (int64_t)SS_CADENCE_TRACKER_LEAST_MG * (int64_t)SS_CADENCE_TRACKER_PRODUCTS)) {
        return;
    }

    int32_t shift = ss_wide_bits_int64(power) - 22;
    shift = (shift < 0) ? 0 : shift;
    ss_word64_t repeats = (ss_word64_t){ 0 };
    for (int32_t lag = 0; lag <= (SS_CADENCE_TRACKER_LONGEST_LAG + 1); lag++) {
        repeats.at[lag] = (int32_t)ss_wide_round((lag == 0) ? power : ss_cadence_tracker_repeats(self, lag), shift);
    }

    int32_t first = ss_cadence_tracker_first_peak(self, &repeats);
    if (first == 0) {
        return;
    }

    int32_t lag256 = ss_cadence_tracker_finer(&repeats, first);
    int32_t cadence = ss_long_division_rounded((uint64_t)self->rate_milli_hz * UINT64_C(60) * UINT64_C(256), (uint32_t)lag256);
    if (cadence > SS_CADENCE_TRACKER_MOST_MILLI_PER_MIN) {
        self->is_from_stride = false;
        return;
    }

    self->cadence_milli_per_min = cadence;
    int32_t share = (repeats.at[first] <= 0) ? 0 : ss_long_division_rounded((uint64_t)repeats.at[first] << 8,
        (uint32_t)(repeats.at[0] + 1));
    self->quality = (uint8_t)((share > 255) ? 255 : share);
}

static bool ss_cadence_tracker_is_peak(const ss_word64_t *repeats, int32_t lag)
{
    return (repeats->at[lag] > 0) && (repeats->at[lag] >= repeats->at[lag - 1]) && (repeats->at[lag] > repeats->at[lag + 1]);
}

/* The shortest lag whose peak is nearly the highest; where that is long and its half repeats too, it was the stride. */
static int32_t ss_cadence_tracker_first_peak(ss_cadence_tracker_t *self, const ss_word64_t *repeats)
{
    int32_t highest = 0;
    for (int32_t lag = SS_CADENCE_TRACKER_SHORTEST_LAG; lag <= SS_CADENCE_TRACKER_LONGEST_LAG; lag++) {
        highest = (ss_cadence_tracker_is_peak(repeats, lag) && (repeats->at[lag] > highest)) ? repeats->at[lag] : highest;
    }

    int32_t found = 0;
    for (int32_t lag = SS_CADENCE_TRACKER_SHORTEST_LAG; (lag <= SS_CADENCE_TRACKER_LONGEST_LAG) && (found == 0); lag++) {
        found = (ss_cadence_tracker_is_peak(repeats, lag) && (repeats->at[lag] >= (highest - ss_shift_right32(highest, 2)))) ? lag : 0;
    }

    if ((found * 10000) <= (7 * self->rate_milli_hz)) {
        return found;
    }

    for (int32_t lag = ss_shift_right32(found, 1) + 1; (lag >= ss_shift_right32(found, 1)) && (lag >= SS_CADENCE_TRACKER_SHORTEST_LAG);
        lag--) {
        if (ss_cadence_tracker_is_peak(repeats, lag)) {
            self->is_from_stride = true;
            return lag;
        }
    }

    return found;
}

/* The peak at a whole number of steps is as wide as the first one, but counts for so many. */
static int32_t ss_cadence_tracker_finer(const ss_word64_t *repeats, int32_t first)
{
    int32_t lag256 = (first * 256) + ss_parabola_vertex256(repeats->at[first - 1], repeats->at[first], repeats->at[first + 1]);
    for (int32_t steps = 2; steps < 6; steps++) {
        int32_t expected = ss_shift_right32((lag256 * steps) + 128, 8);
        int32_t at = expected;
        for (int32_t lag = expected - 1; (lag <= (expected + 1)) && (lag <= SS_CADENCE_TRACKER_LONGEST_LAG); lag++) {
            at = ss_cadence_tracker_is_peak(repeats, lag) ? lag : at;
        }

        if ((at > SS_CADENCE_TRACKER_LONGEST_LAG) || !ss_cadence_tracker_is_peak(repeats, at)
            || (repeats->at[at] < ss_shift_right32(repeats->at[first], 1))) {
            break;
        }

        lag256 = ((at * 256) + ss_parabola_vertex256(repeats->at[at - 1], repeats->at[at], repeats->at[at + 1])
            + ss_shift_right32(steps, 1)) / steps;
    }

    return lag256;
}
