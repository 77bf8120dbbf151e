/* Generated from SensorSim.Detection/Pressure/CuffPoint.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_CUFF_POINT_H
#define SS_PRESSURE_CUFF_POINT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* A cuff measurement and what the sensor read at the same time, in the same posture. */
struct ss_cuff_point {
    int32_t systolic_milli; /* Systolic pressure by the cuff [1/1000 mmHg]. */
    int32_t diastolic_milli; /* Diastolic pressure by the cuff [1/1000 mmHg]. */
    int32_t arrival_us; /* Spot arrival time [µs]. */
    int32_t spread_us; /* Standard deviation of the single beats' arrival times [µs]; 0 when not known. */
    int32_t rate_milli_bpm; /* Heart rate [1/1000 bpm]; 0 when not known. */
    int64_t time_s; /* When [s], on the clock that estimates are asked with. */
};

/* A cuff measurement and what the sensor read at the same time, in the same posture. */
ss_cuff_point_t ss_cuff_point_make(int32_t systolic_milli, int32_t diastolic_milli, int32_t arrival_us, int32_t spread_us,
    int32_t rate_milli_bpm, int64_t time_s);

#endif
