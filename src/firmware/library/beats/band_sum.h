/* Generated from SensorSim.Detection/Beats/BandSum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BAND_SUM_H
#define SS_BEATS_BAND_SUM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

/*
 * Sum of the latest samples, as the moving sum of the fixed-point room, with room for 20 ms: what the band-pass needs.
 * Input: 32 bits, any format; only the true sum has to fit, for the running sum is exact modulo 2^32. Product: none. Accumulator: 32 bits;
 * input bits + log2(length) ≤ 32. Worst case: length × largest input; zero-frequency gain is the length. Output: exact, no rounding; delay
 * (length − 1) / 2 samples, zeros at multiples of rate / length.
 */
struct ss_band_sum {
    ss_word8_t held;
    int32_t at;
    int32_t sum;
    int32_t length;
};

/*
 * Sets the length and behaves as if a constant had always come in.
 * length: 1 to 8 samples.
 * value: The constant.
 */
void ss_band_sum_restart(ss_band_sum_t *self, int32_t length, int32_t value);

/*
 * Takes the next sample.
 * value: The sample.
 * Returns: The sum that includes it.
 */
static inline int32_t ss_band_sum_next(ss_band_sum_t *self, int32_t value);

static inline int32_t ss_band_sum_next(ss_band_sum_t *self, int32_t value)
{
    {
        int32_t at = self->at;
        self->sum = ss_wrap_add32(self->sum, ss_wrap_sub32(value, self->held.at[ss_wrap_sub32(at, self->length) & (SS_WORD8_LENGTH - 1)]));
        self->held.at[at & (SS_WORD8_LENGTH - 1)] = value;
        self->at = ss_wrap_add32(at, 1);
        return self->sum;
    }
}

#endif
