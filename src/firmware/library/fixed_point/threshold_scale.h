/* Generated from SensorSim.FixedPoint/ThresholdScale.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_THRESHOLD_SCALE_H
#define SS_FIXED_POINT_THRESHOLD_SCALE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * What a share is more than 1.
 * percent: The share [percent], 25 to 400.
 * Returns: In 1/1024; 0 for 100 percent.
 */
int16_t ss_threshold_scale_more1024(int32_t percent);

/*
 * Takes the share of a threshold.
 * threshold: The threshold, 0 or more.
 * more1024: What the share is more than 1 [1/1024].
 */
int32_t ss_threshold_scale_apply(int32_t threshold, int32_t more1024);

#endif
