/* Generated from SensorSim.Detection/Pressure/Cusum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_CUSUM_H
#define SS_PRESSURE_CUSUM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_CUSUM_MOST_IN_RUN 8192

/*
 * One side of a tabular cumulative sum (Page 1954): C = max(0, C + u − k), and what is needed to say since when and how much.
 * Size: mean deviation since the sum last left 0 (Montgomery, statistical quality control; from memory), from the baseline of that day. Input:
 * standardised value and allowance in Q24.8 standard deviations, values within ±64; deviations in 1/256 mmHg, 17 bits. Product: none.
 * Accumulator: 32 bits, the sum stops at a limit; the sums of a run stop counting after 2^13 values. Worst case: 2^13 × 2^17 = 2^30. Output:
 * Q24.8, exact.
 */
struct ss_cusum {
    int32_t deviations256;
    int32_t moved256;
    int32_t sum256; /* The sum [1/256 standard deviation]. */
    uint16_t count; /* Values since the sum left 0. */
    int32_t began_day; /* Day of the first of them. */
};

/* Mean deviation of them [1/256 mmHg], rounded toward 0; 0 when there are none. */
static inline int32_t ss_cusum_size256(const ss_cusum_t *self);

/*
 * Takes a value.
 * standardised256: The value, upward as this side counts [1/256 standard deviation].
 * deviation256: How far it is from the baseline, upward as this side counts [1/256 mmHg].
 * allowance256: k [1/256 standard deviation].
 * most256: Where the sum stops [1/256 standard deviation].
 * day: Its day.
 */
void ss_cusum_add(ss_cusum_t *self, int32_t standardised256, int32_t deviation256, int32_t allowance256, int32_t most256, int32_t day);

/*
 * The baseline has moved: deviations from now on are counted from where it was.
 * by256: By how much, upward as this side counts [1/256 mmHg].
 */
void ss_cusum_move(ss_cusum_t *self, int32_t by256);

static inline int32_t ss_cusum_size256(const ss_cusum_t *self)
{
    return (self->count == 0) ? 0 : (self->deviations256 / self->count);
}

#endif
