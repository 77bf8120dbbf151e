/* Generated from SensorSim.FixedPoint/Parabola.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_PARABOLA_H
#define SS_FIXED_POINT_PARABOLA_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Where the vertex lies relative to the middle point.
 * before: Value one spacing earlier.
 * middle: Value in the middle, the extreme of the three.
 * after: Value one spacing later.
 * Returns: Offset in 1/256 of the spacing, −128 to 128; 0 when the three lie on a line.
 * Input: 31 bits, any common format. Product: differences scaled to 22 bits, times 128: 29 bits. Accumulator: 32 bits; differences of 31-bit
 * words are taken after halving twice. Worst case: a tie of two points gives ±128; beyond that clipped. Output: Q2.8 of a spacing, rounded to
 * nearest; one 32-bit division, so once per beat.
 */
int32_t ss_parabola_vertex256(int32_t before, int32_t middle, int32_t after);

#endif
