/* Generated from SensorSim.Detection/Beats/BandPass.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BAND_PASS_H
#define SS_BEATS_BAND_PASS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/band_sum.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"

/*
 * First stage: two moving sums, then a second difference. Symmetric, so every frequency is delayed alike.
 * Input: codes of up to 24 bits, or sums of two. Product: none. Accumulator: 32 bits; sums of the sums kept below 2^29.5 by a shift chosen at
 * start-up, see beat_windows. Worst case: full-scale swing in step with the arms, 2^31. Output: 32 bits, gain (first × second sum) / 2^shift ×
 * 4 sin²(π f arm); floor at the shift.
 */
struct ss_band_pass {
    ss_band_sum_t first;
    ss_band_sum_t second;
    ss_word16_t held;
    int32_t at;
    int32_t shift;
    int32_t arm;
};

/*
 * Behaves as if a constant had always come in: the output starts at 0.
 * windows: Lengths.
 * value: The constant.
 */
void ss_band_pass_restart(ss_band_pass_t *self, const ss_beat_windows_t *windows, int32_t value);

/*
 * Takes the next sample.
 * value: The sample.
 * Returns: Band-passed value.
 */
static inline int32_t ss_band_pass_next(ss_band_pass_t *self, int32_t value);

static inline int32_t ss_band_pass_next(ss_band_pass_t *self, int32_t value)
{
    {
        int32_t first = ss_band_sum_next(&self->first, value);
        int32_t shifted = ss_shift_floor(first, self->shift);
        int32_t sum = ss_band_sum_next(&self->second, shifted);
        int32_t at = self->at;
        self->held.at[at & (SS_WORD16_LENGTH - 1)] = sum;
        int32_t middle = self->held.at[ss_wrap_sub32(at, self->arm) & (SS_WORD16_LENGTH - 1)];
        int32_t oldest = self->held.at[ss_wrap_sub32(at, ss_wrap_mul32(2, self->arm)) & (SS_WORD16_LENGTH - 1)];
        self->at = ss_wrap_add32(at, 1);
        return ss_wrap_sub32(ss_wrap_sub32(sum, middle), ss_wrap_sub32(middle, oldest));
    }
}

#endif
