/* Generated from SensorSim.FixedPoint/Sat.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_SAT_H
#define SS_FIXED_POINT_SAT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/shift.h"

/*
 * Saturating sum.
 * a: First term.
 * b: Second term.
 * Input: two words of 32 bits, same format. Product: none. Accumulator: 32 bits, wrapped sum inspected by its signs, no guard bit needed.
 * Worst case: both at a rail gives that rail. Output: same format, exact or clipped, no rounding.
 */
int32_t ss_sat_add32(int32_t a, int32_t b);

/*
 * Saturating difference.
 * a: Minuend.
 * b: Subtrahend.
 * Input: two words of 32 bits, same format. Product: none. Accumulator: 32 bits, wrapped difference inspected by its signs. Worst case: lowest
 * minus highest gives the lowest. Output: same format, exact or clipped, no rounding.
 */
int32_t ss_sat_sub32(int32_t a, int32_t b);

/*
 * Magnitude; the lowest word, which has no positive twin, gives the highest.
 * value: Any word.
 * Input: 32 bits. Product: none. Accumulator: 32 bits. Worst case: −2^31 gives 2^31 − 1. Output: same format, 0 to 2^31 − 1.
 */
static inline int32_t ss_sat_abs32(int32_t value);

/*
 * Clips a word to 16 bits.
 * value: Any word.
 * Input: 32 bits. Product: none. Accumulator: none. Worst case: beyond ±2^15 the rail of 16 bits. Output: 16 bits, same weight of a bit, no
 * rounding.
 */
int16_t ss_sat_narrow16(int32_t value);

/*
 * Clips a word to a symmetric range.
 * value: Any word.
 * limit: Largest magnitude that passes, 0 to 2^31 − 1.
 * Input: 32 bits. Product: none. Accumulator: none. Worst case: beyond ±limit gives ±limit. Output: same format, no rounding.
 */
int32_t ss_sat_narrow(int32_t value, int32_t limit);

static inline int32_t ss_sat_abs32(int32_t value)
{
    /* Without a jump, for the sign of noise cannot be predicted. Of the lowest word the magnitude wraps back to it; its top bit takes one off. */
    int32_t sign = ss_shift_floor(value, 31);
    uint32_t magnitude = (uint32_t)ss_wrap_sub32(value ^ sign, sign);
    return (int32_t)(magnitude - (magnitude >> 31));
}

#endif
