/* Generated from SensorSim.FixedPoint/ThresholdScale.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/threshold_scale.h"

int16_t ss_threshold_scale_more1024(int32_t percent)
{
    return (int16_t)((((percent * 1024) + 50) / 100) - 1024);
}

int32_t ss_threshold_scale_apply(int32_t threshold, int32_t more1024)
{
    int64_t scaled = ss_shift_right64((int64_t)threshold * (int64_t)(1024 + more1024), 10);
    return (scaled > INT64_C(2147483647)) ? INT32_MAX : (int32_t)scaled;
}
