/* Generated from SensorSim.Detection/Movement/Canceller.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "movement/canceller.h"
#include "movement/movement_reference.h"
#include "movement/movement_words.h"
#include "movement/normalised_step.h"

static void ss_canceller_learn(ss_canceller_t *self, int32_t input, int32_t estimate, const ss_movement_reference_t *reference,
    const ss_word12_t *functions);

bool ss_canceller_start(ss_canceller_t *self, int32_t light_rate_hz, int32_t accel_rate_hz)
{
    if ((light_rate_hz < SS_MOVEMENT_REFERENCE_MINIMUM_RATE_HZ) || (light_rate_hz > SS_MOVEMENT_REFERENCE_MAXIMUM_RATE_HZ)
        || (accel_rate_hz < SS_MOVEMENT_REFERENCE_MINIMUM_RATE_HZ) || (accel_rate_hz > SS_MOVEMENT_REFERENCE_MAXIMUM_RATE_HZ)) {
        return false;
    }

    *self = (ss_canceller_t){ 0 };
    int32_t grid = ss_movement_reference_grid_rate_hz(accel_rate_hz);
    grid = (grid < light_rate_hz) ? grid : light_rate_hz;
    self->per_light256 = (grid * 256) / light_rate_hz;
    self->level_shift = ss_movement_reference_level_shift(grid);
    self->is_fresh = true;
    return true;
}

void ss_canceller_restart(ss_canceller_t *self)
{
    self->is_fresh = true;
    self->estimate = 0;
    self->slope = 0;
}

void ss_canceller_step(ss_canceller_t *self, int32_t light, const ss_movement_reference_t *reference)
{
    if (self->is_fresh) {
        self->is_fresh = false;
        self->level = ss_shift_left32(light, SS_CANCELLER_LEVEL_FRACTION);
    }

    self->steps = reference->steps;
    self->place256 = 0;
    int32_t input = ss_sat_narrow(light - ss_shift_round(self->level, SS_CANCELLER_LEVEL_FRACTION), SS_NORMALISED_STEP_ESTIMATE_RAIL);
    self->level += ss_shift_round(ss_shift_left32(input, SS_CANCELLER_LEVEL_FRACTION), self->level_shift);
    if (reference->is_still) {
        self->estimate = 0;
        self->slope = 0;
        self->is_active = false;
        return;
    }

    const ss_word12_t *functions = ss_movement_reference_values(reference);
    int32_t estimate = ss_normalised_step_estimate(&self->weights, functions);
    int32_t used = self->is_helping ? estimate : 0;
    self->slope = self->is_active ? ss_sat_narrow(used - self->estimate, SS_CANCELLER_SLOPE_RAIL) : 0;
    self->estimate = used;
    self->is_active = true;
    if (ss_movement_reference_is_for_learning(reference)) {
        ss_canceller_learn(self, input, estimate, reference, functions);
    }

}

static void ss_canceller_learn(ss_canceller_t *self, int32_t input, int32_t estimate, const ss_movement_reference_t *reference,
    const ss_word12_t *functions)
{
    /* Steps of the light, taps, shade: they count as large errors usually are, so that one does not undo what was learned. */
    int32_t error = ss_sat_narrow(input - estimate, ss_shift_right32(self->mean_error, SS_CANCELLER_MEAN_FRACTION - 2) + 64);
    int32_t size = ss_sat_narrow(input, ss_shift_right32(self->mean_input, SS_CANCELLER_MEAN_FRACTION - 2) + 64);
    self->mean_error += ss_shift_round(ss_shift_left32(ss_sat_abs32(error), SS_CANCELLER_MEAN_FRACTION) - self->mean_error,
        SS_CANCELLER_MEAN_SHIFT);
    self->mean_input += ss_shift_round(ss_shift_left32(ss_sat_abs32(size), SS_CANCELLER_MEAN_FRACTION) - self->mean_input,
        SS_CANCELLER_MEAN_SHIFT);
    self->slow_error += ss_shift_round(ss_shift_left32(ss_sat_abs32(error), SS_CANCELLER_MEAN_FRACTION) - self->slow_error,
        SS_CANCELLER_BENEFIT_SHIFT);
    self->slow_input += ss_shift_round(ss_shift_left32(ss_sat_abs32(size), SS_CANCELLER_MEAN_FRACTION) - self->slow_input,
        SS_CANCELLER_BENEFIT_SHIFT);
    self->is_helping = self->slow_error < (self->slow_input
        - ss_shift_floor(self->slow_input, self->is_helping ? SS_CANCELLER_STAY_SHIFT : SS_CANCELLER_START_SHIFT));

    /* Larger steps in the first seconds of movement. */
    int32_t shift = SS_CANCELLER_FIRST_SHIFT + ss_shift_floor(self->learned, SS_CANCELLER_STEPS_BITS);
    self->learned += (shift < SS_CANCELLER_SETTLED_SHIFT) ? 1 : 0;
    for (int32_t axis = 0; axis < SS_MOVEMENT_REFERENCE_AXES; axis++) {
        ss_normalised_step_learn(&self->weights, functions, axis * SS_MOVEMENT_REFERENCE_FUNCTIONS, SS_MOVEMENT_REFERENCE_FUNCTIONS, error,
            ss_movement_reference_power_bits(reference, axis), shift);
    }

    /* One weight a step forgets a part of itself. */
    self->leaking = (self->leaking == (SS_WORD12_LENGTH - 1)) ? 0 : (self->leaking + 1);
    self->weights.at[self->leaking] -= ss_shift_round(self->weights.at[self->leaking], SS_CANCELLER_LEAK_SHIFT);

    /* More left than there was: these weights are wrong for this movement. */
    if (self->mean_error > (self->mean_input + ss_shift_right32(self->mean_input, 3))) {
        ss_normalised_step_shrink(&self->weights, 3);
    }
}
