/* Generated from SensorSim.Detection/Movement/MovementReference.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "movement/movement_level.h"
#include "movement/movement_reference.h"
#include "movement/movement_words.h"

static inline int32_t ss_movement_reference_without_gravity(ss_movement_reference_t *self, int32_t axis, int32_t value);
static inline void ss_movement_reference_advance(ss_movement_reference_t *self, int32_t first, int32_t input);
static void ss_movement_reference_find_powers(ss_movement_reference_t *self);

bool ss_movement_reference_is_allowed(int32_t rate_hz, int32_t codes_per_g)
{
    return (rate_hz >= SS_MOVEMENT_REFERENCE_MINIMUM_RATE_HZ) && (rate_hz <= SS_MOVEMENT_REFERENCE_MAXIMUM_RATE_HZ) && (codes_per_g >= 16)
        && (codes_per_g <= (1 << 19));
}

int32_t ss_movement_reference_grid_rate_hz(int32_t rate_hz)
{
    return (rate_hz < 100) ? rate_hz : (rate_hz / (rate_hz / 50));
}

int32_t ss_movement_reference_level_shift(int32_t rate_hz)
{
    int32_t shift = 3;
    while (ss_shift_right32(rate_hz, shift) > 2) {
        shift++;
    }

    return shift;
}

bool ss_movement_reference_start(ss_movement_reference_t *self, int32_t rate_hz, int32_t codes_per_g)
{
    if (!ss_movement_reference_is_allowed(rate_hz, codes_per_g)) {
        return false;
    }

    *self = (ss_movement_reference_t){ 0 };
    self->decimation = (rate_hz < 100) ? 1 : (rate_hz / 50);

    /* 16384 units in 1 g, as a factor with 16 more bits. */
    self->scale = (int32_t)((INT64_C(1) << 30) / ((int64_t)codes_per_g * (int64_t)self->decimation));
    int32_t grid = ss_movement_reference_grid_rate_hz(rate_hz);
    self->pole_shift = (grid < SS_MOVEMENT_REFERENCE_SLOW_GRID_HZ) ? 1 : 2;
    self->learning_mask = (grid < SS_MOVEMENT_REFERENCE_SLOW_GRID_HZ) ? 0 : 1;
    self->level_shift = ss_movement_reference_level_shift(grid);
    self->is_fresh = true;
    self->is_still = true;
    return true;
}

int32_t ss_movement_reference_power_bits(const ss_movement_reference_t *self, int32_t axis)
{
    return self->power_bits.at[axis];
}

void ss_movement_reference_next(ss_movement_reference_t *self, int32_t x, int32_t y, int32_t z)
{
    self->sums.at[0] += x;
    self->sums.at[1] += y;
    self->sums.at[2] += z;
    self->phase++;
    int32_t value = self->phase;
    if (value < self->decimation) {
        return;
    }

    self->phase = 0;
    int32_t square = 0;
    for (int32_t axis = 0; axis < SS_MOVEMENT_REFERENCE_AXES; axis++) {
        int32_t high = ss_movement_reference_without_gravity(self, axis,
            ss_wide_narrow(ss_wide_round((int64_t)self->sums.at[axis] * (int64_t)self->scale, 16), SS_MOVEMENT_REFERENCE_RAIL));
        self->sums.at[axis] = 0;
        ss_movement_reference_advance(self, axis * SS_MOVEMENT_REFERENCE_FUNCTIONS, high);

        /* In 1/1024 g, and a quarter of the square, so that 16 g three times stay within 30 bits. */
        int32_t coarse = ss_shift_floor(high, 4);
        square += ss_shift_floor(coarse * coarse, 2);
    }

    self->is_fresh = false;
    self->steps = ss_wrap_add32(self->steps, 1);
    if (ss_movement_reference_is_for_learning(self)) {
        ss_movement_reference_find_powers(self);
    }

    self->mean_square += ss_shift_round(square - self->mean_square, self->level_shift);
    int32_t bound = self->is_still ? SS_MOVEMENT_LEVEL_STILL_UP_TO_MG : SS_MOVEMENT_LEVEL_STILL_BELOW_MG;
    self->is_still = self->mean_square < ss_shift_floor(bound * bound, 2);
}

/* The level has 12 bits more, so that a slow mean moves by less than a unit. */
static inline int32_t ss_movement_reference_without_gravity(ss_movement_reference_t *self, int32_t axis, int32_t value)
{
    if (self->is_fresh) {
        self->gravity.at[axis] = ss_shift_left32(value, 12);
    }

    int32_t high = ss_sat_narrow(value - ss_shift_round(self->gravity.at[axis], 12), SS_MOVEMENT_REFERENCE_RAIL);
    self->gravity.at[axis] += ss_shift_round(ss_shift_left32(high, 12), self->level_shift);
    return high;
}

static inline void ss_movement_reference_advance(ss_movement_reference_t *self, int32_t first, int32_t input)
{
    /* Differences have 22 bits: adding the half before the shift rounds as Shift.Round does. */
    ss_room_int32_t functions = ss_room_int32_slice(ss_room_int32_of(self->functions.at, 12), first, SS_MOVEMENT_REFERENCE_FUNCTIONS);
    int32_t shift = self->pole_shift;
    int32_t half = ss_shift_left32(1, shift - 1);
    int32_t before = functions.at[0];
    int32_t now = before + ss_shift_floor(input - before + half, shift);
    functions.at[0] = now;
    for (int32_t i = 1; i < functions.length; i++) {
        /* y = p y' + x' − p x with p = 1 − 2^−shift: the difference (y' − x) less its 2^shift-th, and x'. */
        int32_t old = functions.at[i];
        int32_t difference = old - now;
        int32_t next = ss_sat_narrow(difference - ss_shift_floor(difference + half, shift) + before, SS_MOVEMENT_REFERENCE_FUNCTION_RAIL);
        functions.at[i] = next;
        before = old;
        now = next;
    }
}

static void ss_movement_reference_find_powers(ss_movement_reference_t *self)
{
    int64_t all = INT64_C(0);
    for (int32_t axis = 0; axis < SS_MOVEMENT_REFERENCE_AXES; axis++) {
        int64_t power = INT64_C(0);
        ss_view_int32_t each = ss_view_int32_slice(ss_view_int32_of(self->functions.at, 12), axis * SS_MOVEMENT_REFERENCE_FUNCTIONS,
            SS_MOVEMENT_REFERENCE_FUNCTIONS);
        for (int32_t at = 0; at < each.length; at++) {
            int32_t value = each.at[at];
            power += (int64_t)value * (int64_t)value;
        }

        /* Up at once, down slowly: the step is never larger than the present power allows. */
        int64_t mean = self->mean_powers.at[axis];
        mean += ss_wide_round(power - mean, SS_MOVEMENT_REFERENCE_POWER_SHIFT);
        mean = (power > mean) ? power : mean;
        self->mean_powers.at[axis] = mean;
        all += mean;
    }

    for (int32_t axis = 0; axis < SS_MOVEMENT_REFERENCE_AXES; axis++) {
        int64_t least = ss_shift_right64(all, SS_MOVEMENT_REFERENCE_LEAST_SHARE_SHIFT);
        self->power_bits.at[axis] = ss_wide_bits_int64((self->mean_powers.at[axis] > least) ? self->mean_powers.at[axis] : least);
    }
}
