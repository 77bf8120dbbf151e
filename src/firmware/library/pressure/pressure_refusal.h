/* Generated from SensorSim.Detection/Pressure/PressureRefusal.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_REFUSAL_H
#define SS_PRESSURE_PRESSURE_REFUSAL_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Why there is no pressure, or no calibration. */
enum {
    SS_PRESSURE_REFUSAL_NONE = 0, /* There is one. */
    SS_PRESSURE_REFUSAL_NOT_CALIBRATED = 1, /* There is no valid calibration. */
    SS_PRESSURE_REFUSAL_SETTING_OUT_OF_RANGE = 2, /* Calibration: a setting lies outside of its range. */
    /* Calibration: a cuff value outside of 50 to 250 systolic, 30 to 160 diastolic, or closer together than 10 mmHg. */
    SS_PRESSURE_REFUSAL_CUFF_IMPLAUSIBLE = 3,
    SS_PRESSURE_REFUSAL_ARRIVAL_IMPLAUSIBLE = 4, /* The arrival time is outside of 80 to 450 ms. */
    /* Calibration: the two points differ by less than 10 ms or 5 mmHg systolic, which is as much as chance does. */
    SS_PRESSURE_REFUSAL_POINTS_TOO_CLOSE = 5,
    /* Calibration: systolic pressure does not fall with arrival time, or by less than half or more than twice what is published. */
    SS_PRESSURE_REFUSAL_SLOPE_IMPLAUSIBLE = 6,
    SS_PRESSURE_REFUSAL_CALIBRATION_TOO_OLD = 7, /* The calibration is older than allowed. */
    SS_PRESSURE_REFUSAL_TIME_BEFORE_CALIBRATION = 8, /* The time given lies before the calibration. */
    SS_PRESSURE_REFUSAL_ARRIVAL_MISSING = 9, /* There is no arrival time to work from, or its quality is 0. */
    /* The calibration has a heart-rate term, and there is no heart rate of the same time. */
    SS_PRESSURE_REFUSAL_HEART_RATE_MISSING = 10,
    SS_PRESSURE_REFUSAL_OUTSIDE_CALIBRATED_RANGE = 11, /* The value lies further from the calibrated pressures than allowed. */
    SS_PRESSURE_REFUSAL_VALUE_IMPLAUSIBLE = 12, /* The values could not be those of a living person: see cuff_implausible. */
    SS_PRESSURE_REFUSAL_TOO_UNCERTAIN = 13 /* The error to be expected is 10 mmHg or more. */
};

#endif
