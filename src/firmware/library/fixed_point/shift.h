/* Generated from SensorSim.FixedPoint/Shift.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_SHIFT_H
#define SS_FIXED_POINT_SHIFT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Divides by 2^bits, rounding to nearest, halves upward.
 * value: Any word.
 * bits: 0 to 31.
 * Input: 32 bits, Qm.n. Product: none. Accumulator: 32 bits; the half is added after the shift, so nothing can overflow. Worst case: 2^31 − 1
 * with 1 bit gives 2^30. Output: Q(m+bits).(n−bits), half up, never saturates.
 */
static inline int32_t ss_shift_round(int32_t value, int32_t bits);

/*
 * Divides by 2^bits, rounding toward minus infinity (biased by half a step).
 * value: Any word.
 * bits: 0 to 31.
 * Input: 32 bits, Qm.n. Product: none. Accumulator: none. Worst case: none, the magnitude never grows. Output: Q(m+bits).(n−bits), floor.
 */
static inline int32_t ss_shift_floor(int32_t value, int32_t bits);

/*
 * The smallest shift that brings a magnitude down to a number of bits.
 * magnitude: 0 to 2^31 − 1.
 * bits: Bits wanted, 1 to 31.
 * Returns: The shift: 0 when the magnitude is below 2^bits already.
 * Input: 31 bits unsigned. Product: none. Accumulator: none. Worst case: 30 (31 bits down to 1). Output: a count of bits; at most 30 steps of
 * a loop, called once per beat.
 */
int32_t ss_shift_needed(int32_t magnitude, int32_t bits);

static inline int32_t ss_shift_round(int32_t value, int32_t bits)
{
    return (bits == 0) ? value : (ss_shift_right32(value, bits) + (ss_shift_right32(value, bits - 1) & 1));
}

static inline int32_t ss_shift_floor(int32_t value, int32_t bits)
{
    return ss_shift_right32(value, bits);
}

#endif
