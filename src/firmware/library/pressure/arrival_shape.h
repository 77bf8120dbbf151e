/* Generated from SensorSim.Detection/Pressure/ArrivalShape.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_ARRIVAL_SHAPE_H
#define SS_PRESSURE_ARRIVAL_SHAPE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* One in the format of the result. */
#define SS_ARRIVAL_SHAPE_ONE 16777216

/*
 * Value of h.
 * model: Form; pulse pressure has the logarithm.
 * time_us: Arrival time T [µs].
 * reference_us: Arrival time T0 of the calibration [µs].
 */
int32_t ss_arrival_shape_q24(ss_pressure_model_t model, int32_t time_us, int32_t reference_us);

/*
 * Square of a ratio of arrival times, Q8.24.
 * over_us: Upper one [µs].
 * under_us: Lower one [µs].
 */
int32_t ss_arrival_shape_square_q24(int32_t over_us, int32_t under_us);

/*
 * A number times one in Q8.24, rounded to nearest.
 * value: The number.
 * q24: The factor.
 */
int32_t ss_arrival_shape_times(int32_t value, int32_t q24);

#endif
