/* Generated from SensorSim.FixedPoint/Median.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_MEDIAN_H
#define SS_FIXED_POINT_MEDIAN_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * The median of at most eight numbers; of an even count the mean of the middle two, rounded down.
 * values: 1 to 8 numbers; left as they are.
 * Input: 32 bits, any common format. Product: none. Accumulator: 32 bits; the middle two are halved before they are added, so there is nothing
 * to overflow. Worst case: the middle values themselves. Output: same format, floor; 28 comparisons without a jump, called once per beat.
 */
int32_t ss_median_of_up_to8(ss_view_int32_t values);

#endif
