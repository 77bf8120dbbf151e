/* Generated from SensorSim.Detection/Pressure/PressureCalibration.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_CALIBRATION_H
#define SS_PRESSURE_PRESSURE_CALIBRATION_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pressure/cuff_point.h"

/* Default of zeta_micro_per_mm_hg: 0.017 per mmHg (Hughes 1979 gives 0.016 to 0.018; from memory). */
#define SS_PRESSURE_CALIBRATION_USUAL_ZETA_MICRO_PER_MM_HG 17000
/*
 * Default of longest_age_days. Wong 2009: systolic errors of coefficients used again grew from 0.0 ± 5.3 mmHg on the same day to 1.4 ± 10.2
 * after six months. If their mean square grows evenly, it passes 8², the largest SD that ISO 81060-2 allows, on day 84.
 */
#define SS_PRESSURE_CALIBRATION_USUAL_LONGEST_AGE_DAYS 84
/* Default of reach_milli_mm_hg: 20 mmHg, two thirds of the change that IEEE 1708a-2019 asks to test. A choice. */
#define SS_PRESSURE_CALIBRATION_USUAL_REACH_MILLI_MM_HG 20000
/* Default of diastolic_share_permille: 0.6, between night falls of 8/11 and 4/8 (Morris 2013). A choice. */
#define SS_PRESSURE_CALIBRATION_USUAL_DIASTOLIC_SHARE_PERMILLE 600

/*
 * Everything that an application has to store to calibrate again after a restart. Not part of the estimator's state.
 * Make it by one_point or two_point, which set the usual values, and change what differs.
 */
struct ss_pressure_calibration {
    ss_pressure_model_t model; /* Form of the curve. */
    int32_t points; /* Cuff measurements: 1 or 2. */
    ss_cuff_point_t first; /* The measurement that the curve goes through, and where its slope is given. */
    ss_cuff_point_t second; /* The second measurement; ignored when there is one point. */
    /* Slope of systolic pressure at the first point [1/1000 mmHg per ms], below 0; 0: −2 / (ζ T). Ignored with two points. */
    int32_t slope_milli_mm_hg_per_ms;
    int32_t zeta_micro_per_mm_hg; /* Elasticity ζ of the arteries [10^-6 per mmHg], 5,000 to 50,000; used when there is no slope. */
    /* Slope of diastolic pressure, as a share of the systolic one [1/1000], 0 to 1000; ignored with two points. */
    int32_t diastolic_share_permille;
    /* Systolic pressure for each bpm above the first point's rate [1/1000 mmHg], −5,000 to 5,000; 0: no such term. */
    int32_t systolic_per_bpm_milli;
    /* Diastolic pressure for each bpm above the first point's rate [1/1000 mmHg], −5,000 to 5,000; 0: no such term. */
    int32_t diastolic_per_bpm_milli;
    int32_t longest_age_days; /* Age after which nothing is given [days], 1 to 3,650; counted from the older point. */
    /* How far beyond the calibrated systolic pressures values are given [1/1000 mmHg], 0 to 100,000; diastolic: two thirds of it. */
    int32_t reach_milli_mm_hg;
};

/*
 * A calibration by one cuff measurement: the slope is the published one, and may be off by a factor of two.
 * model: Form of the curve.
 * first: The measurement.
 */
ss_pressure_calibration_t ss_pressure_calibration_one_point(ss_pressure_model_t model, ss_cuff_point_t first);

/*
 * A calibration by two cuff measurements of different pressure.
 * model: Form of the curve.
 * first: The measurement at rest.
 * second: The other one.
 */
ss_pressure_calibration_t ss_pressure_calibration_two_point(ss_pressure_model_t model, ss_cuff_point_t first, ss_cuff_point_t second);

#endif
