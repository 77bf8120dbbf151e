/* Generated from SensorSim.Detection/Pressure/CuffPoint.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pressure/cuff_point.h"

ss_cuff_point_t ss_cuff_point_make(int32_t systolic_milli, int32_t diastolic_milli, int32_t arrival_us, int32_t spread_us,
    int32_t rate_milli_bpm, int64_t time_s)
{
    ss_cuff_point_t made = { 0 };
    made.systolic_milli = systolic_milli;
    made.diastolic_milli = diastolic_milli;
    made.arrival_us = arrival_us;
    made.spread_us = spread_us;
    made.rate_milli_bpm = rate_milli_bpm;
    made.time_s = time_s;
    return made;
}
