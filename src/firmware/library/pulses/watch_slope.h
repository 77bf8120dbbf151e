/* Generated from SensorSim.Detection/Pulses/WatchSlope.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_WATCH_SLOPE_H
#define SS_PULSES_WATCH_SLOPE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * First stage: slope of the straight line through the latest 2m + 1 samples, by running sums.
 * Input: sums of up to five 24-bit codes, 27 bits. Product: sample × m, m up to 12; exact modulo 2^32 like the sums. Accumulator: 32 bits;
 * exact modulo 2^32, and the true value stays within 2^24 × 112 (times decimation, at 499 Hz). Worst case: a full-scale step in the middle,
 * below 2^31. Output: Σ k x(k), the slope × Σ k²; exact, delay m working samples.
 */
struct ss_watch_slope {
    int32_t arm;
    int32_t sum;
    int32_t weighted;
};

/*
 * Behaves as if a constant had always come in.
 * arm: Half-width m.
 * value: The constant.
 */
void ss_watch_slope_restart(ss_watch_slope_t *self, int32_t arm, int32_t value);

/*
 * Behaves as if everything that came in had been higher.
 * by: By how much.
 */
void ss_watch_slope_raise(ss_watch_slope_t *self, int32_t by);

/*
 * Takes the next sample.
 * value: The sample.
 * leaving: The sample that came 2m + 1 before it.
 * Returns: Slope × Σ k².
 */
static inline int32_t ss_watch_slope_next(ss_watch_slope_t *self, int32_t value, int32_t leaving);

static inline int32_t ss_watch_slope_next(ss_watch_slope_t *self, int32_t value, int32_t leaving)
{
    {
        self->weighted = ss_wrap_add32(self->weighted,
            ss_wrap_sub32(ss_wrap_add32(ss_wrap_mul32(self->arm, value), ss_wrap_mul32(ss_wrap_add32(self->arm, 1), leaving)), self->sum));
        self->sum = ss_wrap_add32(self->sum, ss_wrap_sub32(value, leaving));
        return self->weighted;
    }
}

#endif
