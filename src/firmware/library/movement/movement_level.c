/* Generated from SensorSim.Detection/Movement/MovementLevel.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/integer_root.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "movement/movement_level.h"
#include "movement/movement_reference.h"
#include "movement/movement_words.h"

static inline int32_t ss_movement_level_square(ss_movement_level_t *self, int32_t axis, int32_t code);

bool ss_movement_level_start(ss_movement_level_t *self, int32_t rate_hz, int32_t codes_per_g)
{
    if (!ss_movement_reference_is_allowed(rate_hz, codes_per_g)) {
        return false;
    }

    *self = (ss_movement_level_t){ 0 };
    self->scale = (int32_t)((INT64_C(1000) << 16) / (int64_t)codes_per_g);
    self->gravity_shift = ss_movement_reference_level_shift(rate_hz);
    self->mean_shift = ss_shift_needed(rate_hz + ss_shift_right32(rate_hz, 1), 1);
    self->every = (rate_hz + 7) / 8;
    self->is_fresh = true;
    self->is_still = true;
    return true;
}

void ss_movement_level_next(ss_movement_level_t *self, int32_t x, int32_t y, int32_t z)
{
    int32_t square_value = ss_movement_level_square(self, 0, x);
    int32_t value = square_value + ss_movement_level_square(self, 1, y);
    int32_t square = value + ss_movement_level_square(self, 2, z);
    self->is_fresh = false;
    self->mean_square += ss_wide_round(ss_shift_left64((int64_t)square, 8) - self->mean_square, self->mean_shift);
    self->taken++;
    int32_t value_2 = self->taken;
    if (value_2 < self->every) {
        return;
    }

    self->taken = 0;
    self->level_mg = (int32_t)ss_integer_root_floor((uint32_t)ss_shift_right64(self->mean_square, 8));
    self->is_still = self->level_mg < (self->is_still ? SS_MOVEMENT_LEVEL_STILL_UP_TO_MG : SS_MOVEMENT_LEVEL_STILL_BELOW_MG);
    self->is_moving = self->level_mg > (self->is_moving ? SS_MOVEMENT_LEVEL_MOVES_DOWN_TO_MG : SS_MOVEMENT_LEVEL_MOVES_ABOVE_MG);
}

static inline int32_t ss_movement_level_square(ss_movement_level_t *self, int32_t axis, int32_t code)
{
    int32_t value = ss_wide_narrow(ss_wide_round((int64_t)code * (int64_t)self->scale, 16), SS_MOVEMENT_LEVEL_RAIL);
    if (self->is_fresh) {
        self->gravity.at[axis] = ss_shift_left32(value, 12);
    }

    int32_t high = ss_sat_narrow(value - ss_shift_round(self->gravity.at[axis], 12), SS_MOVEMENT_LEVEL_RAIL);
    self->gravity.at[axis] += ss_shift_round(ss_shift_left32(value, 12) - self->gravity.at[axis], self->gravity_shift);
    return high * high;
}
