/* Generated from SensorSim.FixedPoint/Wide.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_WIDE_H
#define SS_FIXED_POINT_WIDE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Divides by 2^bits, rounding to nearest, halves upward.
 * value: Any.
 * bits: 0 to 62.
 * Input: 64 bits, Qm.n. Product: none. Accumulator: 64 bits; the half is added after the shift, so nothing can overflow. Worst case: none, the
 * magnitude never grows. Output: Q(m+bits).(n−bits), half up.
 */
static inline int64_t ss_wide_round(int64_t value, int32_t bits);

/*
 * Divides by 2^bits, rounding toward minus infinity.
 * value: Any number.
 * bits: 0 to 63.
 * Input: 64 bits, Qm.n. Product: none. Accumulator: none. Worst case: none, the magnitude never grows. Output: Q(m+bits).(n−bits), floor.
 */
int64_t ss_wide_floor(int64_t value, int32_t bits);

/*
 * Multiplies by a power of two, or divides by it toward minus infinity.
 * value: Any.
 * bits: Above 0 multiplies; below 0 divides.
 * Input: 32 bits times 2^30 at most, or 63 bits and a division. Product: none. Accumulator: 64 bits. Worst case: factors above 2^30 count as
 * 2^30. Output: floor where it divides.
 */
int64_t ss_wide_shifted(int64_t value, int32_t bits);

/*
 * Clips to a symmetric range of 31 bits at most.
 * value: Any.
 * limit: Largest magnitude that passes.
 */
static inline int32_t ss_wide_narrow(int64_t value, int32_t limit);

/*
 * The number of bits of a number: the smallest b with value < 2^b.
 * value: 0 or more.
 * Input: 63 bits unsigned. Product: none. Accumulator: none. Worst case: 63. Output: 0 to 63; counts leading zeros, one instruction on most
 * cores.
 */
static inline int32_t ss_wide_bits_int64(int64_t value);

/*
 * The number of bits of a number: the smallest b with value < 2^b.
 * value: Any number.
 * Input: 64 bits unsigned. Product: none. Accumulator: none. Worst case: 64. Output: 0 to 64; counts leading zeros, one instruction on most
 * cores.
 */
static inline int32_t ss_wide_bits_uint64(uint64_t value);

/*
 * Logarithm to base 2, the mantissa taken as a parabola.
 * value: 0 or more.
 * Returns: 256 log2(value), off by at most 4; 0 for a value of 0.
 * Input: 63 bits unsigned. Product: mantissa 8 bits twice: 16 bits. Accumulator: 32 bits. Worst case: 63 × 256. Output: UQ6.8. log2(1 + m) ≈ m
 * + 0.34 m (1 − m), off by less than 0.01.
 */
int32_t ss_wide_log2_in256(int64_t value);

/*
 * Quotient, rounded to nearest, without the clip at 31 bits of long_division.
 * numerator: 0 to 2^63 − 1.
 * denominator: 1 to 2^31 − 1; 0 counts as 1.
 * Input: UQ63.0 over UQ31.0. Product: none; one step for each bit that the quotient can have. Accumulator: 32 bits of remainder, 64 bits of
 * quotient. Worst case: division by one. Output: UQ63.0, half up.
 */
uint64_t ss_wide_divide(uint64_t numerator, uint32_t denominator);

/*
 * The largest whole number whose square does not exceed the value.
 * value: Any number.
 * Input: UQ64.0. Product: none; one bit of the root for each of 32 steps. Accumulator: 64 bits, remainder and twice the root side by side.
 * Worst case: 2^64 − 1 gives 2^32 − 1. Output: UQ32.0, floor.
 */
uint32_t ss_wide_root(uint64_t value);

static inline int64_t ss_wide_round(int64_t value, int32_t bits)
{
    return (bits == 0) ? value : (ss_shift_right64(value, bits) + (ss_shift_right64(value, bits - 1) & INT64_C(1)));
}

static inline int32_t ss_wide_narrow(int64_t value, int32_t limit)
{
    return (value > (int64_t)limit) ? limit : ((value < (int64_t)-limit) ? -limit : (int32_t)value);
}

static inline int32_t ss_wide_bits_int64(int64_t value)
{
    return 64 - ss_leading_zeros64((uint64_t)value);
}

static inline int32_t ss_wide_bits_uint64(uint64_t value)
{
    return 64 - ss_leading_zeros64(value);
}

#endif
