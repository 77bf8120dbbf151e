/* Generated from SensorSim.Detection/Pressure/PressureLimits.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_LIMITS_H
#define SS_PRESSURE_PRESSURE_LIMITS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Shortest arrival time that is believed [µs], as in the pairing of beats and feet. */
#define SS_PRESSURE_LIMITS_SHORTEST_US 80000
/* Longest arrival time that is believed [µs]. */
#define SS_PRESSURE_LIMITS_LONGEST_US 450000
/* Two spot values of one person differ by 9 ms (SD, finger, day to day: Jago and Murray 1988). */
#define SS_PRESSURE_LIMITS_LEAST_APART_US 10000
#define SS_PRESSURE_LIMITS_LEAST_APART_MILLI 5000
/* Finger, systolic: -0.3 to -1.2 mmHg/ms (from memory); half and twice that. */
#define SS_PRESSURE_LIMITS_LEAST_SLOPE_MILLI 150
#define SS_PRESSURE_LIMITS_MOST_SLOPE_MILLI 2400

/*
 * Whether two pressures can be those of a living person: 50 to 250, 30 to 160, 10 mmHg apart (range for gating in the study of arterial-line
 * arrival times during surgery that the reference of this project names).
 * systolic_milli: Systolic [1/1000 mmHg].
 * diastolic_milli: Diastolic [1/1000 mmHg].
 */
bool ss_pressure_limits_are_plausible(int32_t systolic_milli, int32_t diastolic_milli);

/*
 * Whether an arrival time is believed.
 * us: The time [µs].
 */
bool ss_pressure_limits_is_arrival(int32_t us);

/*
 * What is wrong with the numbers of a calibration.
 * c: The calibration.
 */
ss_pressure_refusal_t ss_pressure_limits_check_1(const ss_pressure_calibration_t *c);

/*
 * Whether a gain T0 dP/dT gives a slope that is believed.
 * gain_milli: Gain [1/1000 mmHg].
 * arrival_us: T0 [µs].
 */
bool ss_pressure_limits_is_slope(int32_t gain_milli, int32_t arrival_us);

#endif
