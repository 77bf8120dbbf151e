/* Generated from SensorSim.FixedPoint/Log2.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_LOG2_H
#define SS_FIXED_POINT_LOG2_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Bits after the point of every result here. */
#define SS_LOG2_FRACTION_BITS 24
/* ln 2 in UQ0.32. */
#define SS_LOG2_LN_OF2 INT64_C(2977044472)

/*
 * Logarithm to base 2.
 * value: 1 to 2^32 − 1; 0 has none and gives 0.
 * Returns: The logarithm in Q8.24; within 0.6 of a step (3.6 × 10^-8) of the true one.
 * Input: UQ32.0; a factor 2^n on the input adds n to the output. Product: UQ1.31 squared is UQ2.62, in 64 bits. Accumulator: UQ1.31 mantissa,
 * 1 up to 2; 25 squarings, each cut at 2^−31, which counts half as much with every further bit. Worst case: 2^32 − 1 gives 32 × 2^24 = 2^29.
 * Output: Q8.24, the 25th bit rounded half up.
 */
int32_t ss_log2_q24(uint32_t value);

/*
 * Natural logarithm.
 * value: 1 to 2^32 − 1; 0 has none and gives 0.
 * Returns: The logarithm in Q8.24; within a step (6 × 10^-8) of the true one.
 * Input: UQ32.0. Product: Q8.24 × UQ0.32, 62 bits. Accumulator: 64 bits. Worst case: 22.2 × 2^24 below 2^29. Output: Q8.24, half up.
 */
int32_t ss_log2_natural_q24(uint32_t value);

#endif
