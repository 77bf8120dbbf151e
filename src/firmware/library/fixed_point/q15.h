/* Generated from SensorSim.FixedPoint/Q15.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_Q15_H
#define SS_FIXED_POINT_Q15_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Product, rounded to nearest, halves upward.
 * a: First factor, Q1.15.
 * b: Second factor, Q1.15.
 * Input: Q1.15 twice. Product: Q2.30 in 32 bits. Accumulator: Q2.30 plus half a step, one guard bit. Worst case: −1 × −1 = +1, the one case
 * that clips. Output: Q1.15, half up, saturating.
 */
int16_t ss_q15_multiply(int16_t a, int16_t b);

/*
 * Product, rounded toward minus infinity (biased by half a step; one addition cheaper).
 * a: First factor, Q1.15.
 * b: Second factor, Q1.15.
 * Input: Q1.15 twice. Product: Q2.30 in 32 bits. Accumulator: none. Worst case: −1 × −1 = +1, the one case that clips. Output: Q1.15, floor,
 * saturating.
 */
int16_t ss_q15_multiply_floor(int16_t a, int16_t b);

#endif
