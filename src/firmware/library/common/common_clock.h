/* Generated from SensorSim.Detection/CommonClock.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_COMMON_COMMON_CLOCK_H
#define SS_COMMON_COMMON_CLOCK_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * The clock that channels of different rates share: ticks, and 1/256 of a tick where more is needed.
 * Input: ticks per second up to 10^9. Product: (ticks × 256) × 15625, 63 bits for spans of up to 2.3 × 10^12 ticks × 256 (40 min on a clock of
 * 1 GHz; days on usual ones). Accumulator: 64 bits, never once a sample. Worst case: results above 2^31 − 1 clip. Output: thousandths of a
 * millisecond, or seconds, rounded to nearest; one long division each.
 */
struct ss_common_clock {
    int64_t ticks_per_second; /* Ticks in a second: the lowest common multiple of the channels' rates. */
};

/*
 * The clock that channels of different rates share: ticks, and 1/256 of a tick where more is needed.
 * Input: ticks per second up to 10^9. Product: (ticks × 256) × 15625, 63 bits for spans of up to 2.3 × 10^12 ticks × 256 (40 min on a clock of
 * 1 GHz; days on usual ones). Accumulator: 64 bits, never once a sample. Worst case: results above 2^31 − 1 clip. Output: thousandths of a
 * millisecond, or seconds, rounded to nearest; one long division each.
 */
ss_common_clock_t ss_common_clock_make(int64_t ticks_per_second);

/*
 * A span in 1/256 tick.
 * ms: The span [ms]; divides once, for use at start-up.
 */
int64_t ss_common_clock_ticks256(ss_common_clock_t self, int32_t ms);

/*
 * A span in thousandths of a millisecond.
 * ticks256: The span [1/256 tick], at least 0.
 */
int32_t ss_common_clock_microseconds(ss_common_clock_t self, int64_t ticks256);

/*
 * A span in whole seconds, rounded to nearest.
 * ticks256: The span [1/256 tick], at least 0.
 */
int32_t ss_common_clock_seconds(ss_common_clock_t self, int64_t ticks256);

#endif
