/* Generated from SensorSim.FixedPoint/IntegerRoot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_INTEGER_ROOT_H
#define SS_FIXED_POINT_INTEGER_ROOT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * The largest whole number whose square does not exceed the value.
 * value: Any word.
 * Input: UQ32.0 (or UQ(32−2n).2n, giving UQ(16−n).n). Product: none; one bit of the root for each of 16 steps. Accumulator: 32 bits, remainder
 * and twice the root side by side. Worst case: 2^32 − 1 gives 65,535. Output: UQ16.0, floor.
 */
uint32_t ss_integer_root_floor(uint32_t value);

#endif
