/* Generated from SensorSim.Detection/Pressure/PressureError.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_ERROR_H
#define SS_PRESSURE_PRESSURE_ERROR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_PRESSURE_ERROR_SYSTOLIC_BASE 280900
#define SS_PRESSURE_ERROR_DIASTOLIC_BASE 84100
/* ((10.2² + 1.4²) − 5.3²) / 182 and ((7.3² + 2.1²) − 2.9²) / 182 mmHg² a day. */
#define SS_PRESSURE_ERROR_SYSTOLIC_PER_DAY 4281
#define SS_PRESSURE_ERROR_DIASTOLIC_PER_DAY 2708
/* From 10 mmHg on nothing is given; 5 mmHg give full trust. */
#define SS_PRESSURE_ERROR_MOST 1000

/*
 * Expected error [1/100 mmHg].
 * is_systolic: Which pressure.
 * age_days: Age of the calibration [days].
 * slope_milli: Magnitude of the slope [1/1000 mmHg per ms].
 * spread_us: Spread of the arrival times, root of the sum of both squares [µs].
 * off_milli: Part of the distance that counts as error [1/1000 mmHg].
 */
int32_t ss_pressure_error_centi(bool is_systolic, int32_t age_days, int32_t slope_milli, int32_t spread_us, int32_t off_milli);

/*
 * Trust, 255 for 5 mmHg and less to 0 for 10 mmHg and more.
 * centi: Expected error [1/100 mmHg].
 */
uint8_t ss_pressure_error_quality(int32_t centi);

#endif
