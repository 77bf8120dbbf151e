/* Generated from SensorSim.FixedPoint/LongDivision.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_LONG_DIVISION_H
#define SS_FIXED_POINT_LONG_DIVISION_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Quotient of a wide number, rounded to nearest, halves upward.
 * numerator: 0 to 2^63 − 1.
 * denominator: 1 to 2^31 − 1.
 * Returns: The quotient, clipped to 2^31 − 1; that value also for a denominator of 0.
 * Input: UQ63.0 over UQ31.0. Product: none; one step for each bit that the quotient can have, found by counting leading zeros: 32 at most,
 * usually a dozen. Accumulator: 32 bits of remainder (below twice the denominator), 32 bits of quotient. Worst case: quotients above 31 bits
 * clip. Output: UQ31.0, half up, saturating.
 */
int32_t ss_long_division_rounded(uint64_t numerator, uint32_t denominator);

#endif
