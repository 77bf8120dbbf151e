/* Generated from SensorSim.Detection/Movement/MovementReference.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_MOVEMENT_REFERENCE_H
#define SS_MOVEMENT_MOVEMENT_REFERENCE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/movement_words.h"

/* Axes. */
#define SS_MOVEMENT_REFERENCE_AXES 3
/* Functions of each axis. */
#define SS_MOVEMENT_REFERENCE_FUNCTIONS 4
/* Lowest rate of an accelerometer, and of light beside it [Hz]. */
#define SS_MOVEMENT_REFERENCE_MINIMUM_RATE_HZ 12
/* Highest rate of an accelerometer, and of light beside it [Hz]. */
#define SS_MOVEMENT_REFERENCE_MAXIMUM_RATE_HZ 1600
#define SS_MOVEMENT_REFERENCE_RAIL 262143
#define SS_MOVEMENT_REFERENCE_FUNCTION_RAIL 1048575
#define SS_MOVEMENT_REFERENCE_SLOW_GRID_HZ 38
#define SS_MOVEMENT_REFERENCE_POWER_SHIFT 4
#define SS_MOVEMENT_REFERENCE_LEAST_SHARE_SHIFT 4

/*
 * What the light's artefact is made of: the acceleration without gravity, each axis through four Laguerre functions.
 * L(0) = (1 − p) / (1 − p/z), L(i + 1) = L(i) · (1/z − p) / (1 − p/z): a complete and orthogonal set for any pole p, so that four of them say
 * what a dozen delays would (Laguerre filters for this use: Gibbs and Asada 2005, abstract). Computed once for all colours, on a grid of 50 to
 * 99 Hz, or at the rate of a slower accelerometer. Input: codes of up to 20 bits, three axes. Product: sum of codes × a factor of 31 bits;
 * squares of 20 bits, 40 bits. Accumulator: 64 bits for both; level of gravity Q19.12 in 32 bits. Worst case: ±16 g clip at 2^18; all-passes
 * may add up to 4 times that, clipped at 2^20. Output: functions in 1/16384 g; powers are sums of four squares, 43 bits.
 */
struct ss_movement_reference {
    ss_word12_t functions;
    ss_word4_t sums;
    ss_word4_t gravity;
    ss_power4_t mean_powers;
    ss_word4_t power_bits;
    int32_t decimation;
    int32_t phase;
    int32_t scale;
    int32_t pole_shift;
    int32_t level_shift;
    int32_t learning_mask;
    int32_t mean_square;
    bool is_fresh;
    int32_t steps; /* Steps of the grid taken so far, modulo 2^32: a change says that there is something new. */
    /* Whether there is so little movement that nothing may be learned from it: the bounds of movement_level, over half a second. */
    bool is_still;
};

/* Whether weights may move at this step: at each where the grid is slow, else at each second one, which is enough. */
static inline bool ss_movement_reference_is_for_learning(const ss_movement_reference_t *self);

/* The functions: element 4 a + i is function i of axis a [1/16384 g]. */
static inline const ss_word12_t *ss_movement_reference_values(const ss_movement_reference_t *self);

/*
 * Whether a rate and a weight of the codes are allowed.
 * rate_hz: Rate of the accelerometer [Hz], 12 to 1600.
 * codes_per_g: Codes for 1 g, 16 to 2^19.
 */
bool ss_movement_reference_is_allowed(int32_t rate_hz, int32_t codes_per_g);

/*
 * Steps of the grid in a second [Hz] for an accelerometer of a rate: its own below 100 Hz, else 50 to 99.
 * rate_hz: Rate of the accelerometer [Hz].
 */
int32_t ss_movement_reference_grid_rate_hz(int32_t rate_hz);

/*
 * The shift of the high-pass that light and acceleration share, for a rate: corner 0.2 to 0.4 Hz.
 * rate_hz: Rate [Hz].
 */
int32_t ss_movement_reference_level_shift(int32_t rate_hz);

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Rate of the accelerometer [Hz], 12 to 1600.
 * codes_per_g: Codes for 1 g, 16 to 2^19.
 * Returns: Whether the arguments are allowed.
 */
bool ss_movement_reference_start(ss_movement_reference_t *self, int32_t rate_hz, int32_t codes_per_g);

/*
 * b with 2^(b − 1) ≤ power of an axis < 2^b: the sum of the squares of its functions, at least their mean over half a second, and at least a
 * sixteenth of all axes' (an axis that only has noise is not learned from faster than it deserves).
 * axis: 0, 1 or 2.
 */
int32_t ss_movement_reference_power_bits(const ss_movement_reference_t *self, int32_t axis);

/*
 * Takes the next sample of the three axes.
 * x: First axis.
 * y: Second axis.
 * z: Third axis.
 */
void ss_movement_reference_next(ss_movement_reference_t *self, int32_t x, int32_t y, int32_t z);

static inline bool ss_movement_reference_is_for_learning(const ss_movement_reference_t *self)
{
    return (self->steps & self->learning_mask) == 0;
}

static inline const ss_word12_t *ss_movement_reference_values(const ss_movement_reference_t *self)
{
    return &self->functions;
}

#endif
