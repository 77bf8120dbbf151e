/* Generated from SensorSim.Detection/Movement/Canceller.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_CANCELLER_H
#define SS_MOVEMENT_CANCELLER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "movement/movement_reference.h"
#include "movement/movement_words.h"
#include "movement/normalised_step.h"

/* μ = 2^−5 for each axis once it has settled: the three together at most 3/32. */
#define SS_CANCELLER_SETTLED_SHIFT 5
#define SS_CANCELLER_FIRST_SHIFT 4
#define SS_CANCELLER_STEPS_BITS 5
#define SS_CANCELLER_LEAK_SHIFT 10
#define SS_CANCELLER_MEAN_SHIFT 5
#define SS_CANCELLER_MEAN_FRACTION 4
/*
 * What is learned has a rest of its own, about a twentieth of the pulse's power: where the light has no artefact, taking the estimate off
 * makes the pulse worse. So it has to take off a 32nd of the mean size, over about 5 s, before it is used, and a 128th to stay.
 */
#define SS_CANCELLER_BENEFIT_SHIFT 7
#define SS_CANCELLER_START_SHIFT 5
#define SS_CANCELLER_STAY_SHIFT 7
#define SS_CANCELLER_SLOPE_RAIL 4194303
#define SS_CANCELLER_LEVEL_FRACTION 6

/*
 * Takes off the light what the movement explains: normalised LMS, each axis by its own power.
 * Weights move on the grid of the reference; between two of its steps the artefact goes on in a straight line. While the reference is still,
 * nothing is taken off and nothing is learned. Input: codes of up to 24 bits; functions of 21 bits. Product: see normalised_step; slope ×
 * place 23 + 9 bits. Accumulator: 64 bits there; level of the light Q24.6 in 32 bits. Worst case: estimate and error clip at 2^24; errors
 * count up to four times their mean. Output: same format and delay as the input, the mean untouched.
 */
struct ss_canceller {
    ss_word12_t weights;
    int32_t level;
    int32_t steps;
    int32_t learned;
    int32_t estimate;
    int32_t slope;
    int32_t place256;
    int32_t per_light256;
    int32_t level_shift;
    int32_t mean_error;
    int32_t mean_input;
    int32_t leaking;
    int32_t slow_error;
    int32_t slow_input;
    bool is_helping;
    bool is_fresh;
    int32_t estimate_told; /* What was taken off the last sample [codes]. */
    bool is_active; /* Whether it works; not while the reference is still. */
};

/* Mean magnitude of what is left of the light, without its level [codes]; meaningful while it works. */
static inline int32_t ss_canceller_mean_error_codes(const ss_canceller_t *self);

/* Mean magnitude of the light before, without its level [codes]; meaningful while it works. */
static inline int32_t ss_canceller_mean_input_codes(const ss_canceller_t *self);

/*
 * Prepares for a stream and drops all state.
 * light_rate_hz: Rate of the light [Hz], 12 to 1600.
 * accel_rate_hz: Rate of the accelerometer [Hz], as the reference was started with.
 * Returns: Whether the arguments are allowed.
 */
bool ss_canceller_start(ss_canceller_t *self, int32_t light_rate_hz, int32_t accel_rate_hz);

/* The next sample comes after a gap or a step of the setting: the level is taken anew, the weights stay. */
void ss_canceller_restart(ss_canceller_t *self);

/*
 * Takes the next sample of the light.
 * light: The code.
 * reference: The movement up to now.
 * Returns: The code without the artefact.
 */
static inline int32_t ss_canceller_next(ss_canceller_t *self, int32_t light, const ss_movement_reference_t *reference);

void ss_canceller_step(ss_canceller_t *self, int32_t light, const ss_movement_reference_t *reference);

static inline int32_t ss_canceller_mean_error_codes(const ss_canceller_t *self)
{
    return ss_shift_round(self->mean_error, SS_CANCELLER_MEAN_FRACTION);
}

static inline int32_t ss_canceller_mean_input_codes(const ss_canceller_t *self)
{
    return ss_shift_round(self->mean_input, SS_CANCELLER_MEAN_FRACTION);
}

static inline int32_t ss_canceller_next(ss_canceller_t *self, int32_t light, const ss_movement_reference_t *reference)
{
    if ((self->steps != reference->steps) || self->is_fresh) {
        ss_canceller_step(self, light, reference);
    }
    else {
        /* Never more than a step beyond the last one: where the acceleration stays away, the artefact stays where it is. */
        int32_t place = self->place256 + self->per_light256;
        self->place256 = (place < 256) ? place : 256;
    }

    self->estimate_told = self->estimate + ss_shift_round(self->slope * self->place256, 8);
    int32_t output = ss_sat_narrow(light - self->estimate_told, SS_NORMALISED_STEP_ESTIMATE_RAIL);
    return output;
}

#endif
