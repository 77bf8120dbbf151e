/* Generated from SensorSim.Detection/Beats/BeatSum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_SUM_H
#define SS_BEATS_BEAT_SUM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_words.h"

/*
 * Sum of the latest samples, as the moving sum of the fixed-point room, with room for 100 ms: what the energy needs.
 * Input: 32 bits, any format; only the true sum has to fit, for the running sum is exact modulo 2^32. Product: none. Accumulator: 32 bits;
 * input bits + log2(length) ≤ 32. Worst case: length × largest input; zero-frequency gain is the length. Output: exact, no rounding; delay
 * (length − 1) / 2 samples, zeros at multiples of rate / length.
 */
struct ss_beat_sum {
    ss_word32_t held;
    int32_t at;
    int32_t sum;
    int32_t length;
};

/*
 * Sets the length and behaves as if a constant had always come in.
 * length: 1 to 32 samples.
 * value: The constant.
 */
void ss_beat_sum_restart(ss_beat_sum_t *self, int32_t length, int32_t value);

/*
 * Takes the next sample.
 * value: The sample.
 * Returns: The sum that includes it.
 */
static inline int32_t ss_beat_sum_next(ss_beat_sum_t *self, int32_t value);

static inline int32_t ss_beat_sum_next(ss_beat_sum_t *self, int32_t value)
{
    {
        int32_t at = self->at;
        int32_t sum = ss_wrap_sub32(ss_wrap_add32(self->sum, value),
            self->held.at[ss_wrap_sub32(at, self->length) & (SS_WORD32_LENGTH - 1)]);
        self->held.at[at & (SS_WORD32_LENGTH - 1)] = value;
        self->at = ss_wrap_add32(at, 1);
        self->sum = sum;
        return sum;
    }
}

#endif
