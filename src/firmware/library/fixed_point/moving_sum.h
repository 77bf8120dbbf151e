/* Generated from SensorSim.FixedPoint/MovingSum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_MOVING_SUM_H
#define SS_FIXED_POINT_MOVING_SUM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

/* Longest sum [samples]. */
#define SS_MOVING_SUM_MAXIMUM_LENGTH 64

/*
 * Sum of the latest samples: the plainest linear-phase low-pass, one addition and one subtraction a sample.
 * Input: 32 bits, any format; only the true sum has to fit, for the running sum is exact modulo 2^32. Product: none. Accumulator: 32 bits;
 * input bits + log2(length) ≤ 32. Worst case: length × largest input; zero-frequency gain is the length. Output: exact, no rounding; delay
 * (length − 1) / 2 samples, zeros at multiples of rate / length.
 */
struct ss_moving_sum {
    ss_word64_t held;
    int32_t at;
    int32_t sum;
    int32_t length; /* Samples in the sum. */
};

/*
 * Sets the length and behaves as if a constant had always come in.
 * length: 1 to maximum_length samples.
 * value: The constant.
 */
void ss_moving_sum_restart(ss_moving_sum_t *self, int32_t length, int32_t value);

/*
 * Takes the next sample.
 * value: The sample.
 * Returns: The sum that includes it.
 */
static inline int32_t ss_moving_sum_next(ss_moving_sum_t *self, int32_t value);

static inline int32_t ss_moving_sum_next(ss_moving_sum_t *self, int32_t value)
{
    {
        int32_t at = self->at;
        int32_t *slot = &self->held.at[at & (SS_WORD64_LENGTH - 1)];
        self->sum = ss_wrap_add32(self->sum, ss_wrap_sub32(value, (*slot)));
        (*slot) = value;
        at = ss_wrap_add32(at, 1);
        self->at = (at == self->length) ? 0 : at;
        return self->sum;
    }
}

#endif
