/* Generated from SensorSim.Detection/Movement/MovementLevel.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_MOVEMENT_LEVEL_H
#define SS_MOVEMENT_MOVEMENT_LEVEL_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/movement_words.h"

/* Above this it is not still any more [mg]; a sensor's noise is some mg, typing begins at 20 mg. */
#define SS_MOVEMENT_LEVEL_STILL_UP_TO_MG 20
/* Below this it is still [mg]. */
#define SS_MOVEMENT_LEVEL_STILL_BELOW_MG 12
/* Above this it moves [mg]; steps are 200 mg and more. */
#define SS_MOVEMENT_LEVEL_MOVES_ABOVE_MG 60
/* Below this it does not move any more [mg]. */
#define SS_MOVEMENT_LEVEL_MOVES_DOWN_TO_MG 40
#define SS_MOVEMENT_LEVEL_RAIL 16383

/*
 * How much the sensor moves: root mean square of the acceleration without gravity, over about a second.
 * Input: codes of up to 20 bits, three axes. Product: code × factor of 26 bits; squares of 15 bits. Accumulator: mean square Q30.8 in 64 bits;
 * levels of gravity Q15.12 in 32 bits. Worst case: ±16 g on each axis: 3 × 2^28. Output: thousandths of g, floor; renewed eight times a
 * second.
 */
struct ss_movement_level {
    ss_word4_t gravity;
    int64_t mean_square;
    int32_t scale;
    int32_t gravity_shift;
    int32_t mean_shift;
    int32_t every;
    int32_t taken;
    bool is_fresh;
    int32_t level_mg; /* Root mean square of the movement [mg]. */
    bool is_still; /* Whether there is hardly any movement. */
    bool is_moving; /* Whether there is so much that it may disturb. */
};

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Rate of the accelerometer [Hz], 12 to 1600.
 * codes_per_g: Codes for 1 g, 16 to 2^19.
 * Returns: Whether the arguments are allowed.
 */
bool ss_movement_level_start(ss_movement_level_t *self, int32_t rate_hz, int32_t codes_per_g);

/*
 * Takes the next sample of the three axes.
 * x: First axis.
 * y: Second axis.
 * z: Third axis.
 */
void ss_movement_level_next(ss_movement_level_t *self, int32_t x, int32_t y, int32_t z);

#endif
