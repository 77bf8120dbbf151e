/* Generated from SensorSim.Detection/Movement/CadenceTracker.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_CADENCE_TRACKER_H
#define SS_MOVEMENT_CADENCE_TRACKER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/movement_words.h"

#define SS_CADENCE_TRACKER_RING 64
#define SS_CADENCE_TRACKER_SHORTEST_LAG 3
#define SS_CADENCE_TRACKER_LONGEST_LAG 23
#define SS_CADENCE_TRACKER_PRODUCTS 40
#define SS_CADENCE_TRACKER_RAIL 8191
#define SS_CADENCE_TRACKER_LEAST_MG 30
/* Nobody takes more than five steps a second: what repeats faster is a machine. */
#define SS_CADENCE_TRACKER_MOST_MILLI_PER_MIN 300000

/*
 * Steps per minute, from the up and down of the acceleration.
 * Up is where gravity is: the body goes up and down with each step, while an arm swings with each second one. The autocorrelation of five
 * seconds has its first high peak at the interval of the steps; the last peak of a whole number of steps gives the interval finely. Input:
 * codes of up to 20 bits, three axes. Product: movement 15 bits × gravity 12 bits; two movements, 28 bits. Accumulator: 32 bits for a sum of a
 * dozen codes; 64 bits for 40 products. Worst case: movement clips at ±8 g. Output: thousandths of steps per minute, up to 300,000, every two
 * seconds.
 */
struct ss_cadence_tracker {
    ss_half64_t held;
    ss_word4_t sums;
    ss_word4_t gravity;
    int32_t decimation;
    int32_t phase;
    int32_t scale;
    int32_t rate_milli_hz;
    int32_t every;
    int32_t at;
    int32_t filled;
    int32_t since;
    int32_t cadence_milli_per_min; /* Steps [1/1000 per minute]; 0 where there are none. */
    uint8_t quality; /* How much of the movement repeats with the steps, 0 to 255. */
    bool is_from_stride; /* Whether the strongest repetition was that of the stride (two steps) and its half was taken. */
};

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Rate of the accelerometer [Hz], 12 to 1600.
 * codes_per_g: Codes for 1 g, 16 to 2^19.
 * Returns: Whether the arguments are allowed.
 */
bool ss_cadence_tracker_start(ss_cadence_tracker_t *self, int32_t rate_hz, int32_t codes_per_g);

/*
 * Takes the next sample of the three axes.
 * x: First axis.
 * y: Second axis.
 * z: Third axis.
 * Returns: Whether there is a new cadence.
 */
bool ss_cadence_tracker_next(ss_cadence_tracker_t *self, int32_t x, int32_t y, int32_t z);

#endif
