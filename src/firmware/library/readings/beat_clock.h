/* Generated from SensorSim.Detection/Readings/BeatClock.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_BEAT_CLOCK_H
#define SS_READINGS_BEAT_CLOCK_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_BEAT_CLOCK_LONGEST_S 120

/*
 * Intervals between beats in one word of 31 bits: the 1/256 tick made coarser by a power of two where the clock is fast.
 * Input: ticks per second up to 10^9. Product: 120 s × 256 × ticks per second, 45 bits. Accumulator: 64 bits, once per beat. Worst case: 120 s
 * stay below 2^31 units; longer spans give 2^31 − 1. Up to 65 kHz a unit is 1/256 tick, so nothing is lost. Output: units of 2^shift / 256
 * ticks; sums of neighbouring intervals are exact, for places are rounded, not intervals.
 */
struct ss_beat_clock {
    int32_t units_per_second;
    uint8_t shift;
};

/* Units in a second. */
static inline int64_t ss_beat_clock_units_per_second(const ss_beat_clock_t *self);

/*
 * Sets the clock.
 * clock: The common clock.
 */
void ss_beat_clock_start(ss_beat_clock_t *self, ss_common_clock_t clock);

/*
 * From one place to a later one [units], 0 to 2^31 − 1.
 * from256: The earlier place [1/256 tick].
 * to256: The later place [1/256 tick].
 */
int32_t ss_beat_clock_span(const ss_beat_clock_t *self, int64_t from256, int64_t to256);

/*
 * The same span in 1/256 tick.
 * units: The span [units].
 */
int64_t ss_beat_clock_ticks256(const ss_beat_clock_t *self, int64_t units);

/*
 * A span in small steps of time, for 16-bit words.
 * units: The span [units], at least 0.
 * steps_per_second: Steps in a second, up to 65,536.
 * Returns: Steps, rounded to nearest.
 */
int32_t ss_beat_clock_steps(const ss_beat_clock_t *self, int32_t units, int32_t steps_per_second);

static inline int64_t ss_beat_clock_units_per_second(const ss_beat_clock_t *self)
{
    return (int64_t)self->units_per_second;
}

#endif
