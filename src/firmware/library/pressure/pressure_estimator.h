/* Generated from SensorSim.Detection/Pressure/PressureEstimator.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_ESTIMATOR_H
#define SS_PRESSURE_PRESSURE_ESTIMATOR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_PRESSURE_ESTIMATOR_SECONDS_PER_DAY 86400
#define SS_PRESSURE_ESTIMATOR_ONE_POINT_PERMILLE 400
#define SS_PRESSURE_ESTIMATOR_INSIDE_PERMILLE 100
#define SS_PRESSURE_ESTIMATOR_LEAST_OUTSIDE_PERMILLE 250
/* Spread at rest where none is told: the upper end of 3 to 8 ms (finger, from memory). */
#define SS_PRESSURE_ESTIMATOR_USUAL_SPREAD_US 8000

/*
 * Systolic and diastolic pressure from the spot arrival time, after calibration by a cuff. Follows changes; no diagnosis.
 * P = P0 + gain × h(T / T0) + rate term, see arrival_shape. Part of the distance from the nearest calibrated pressure that counts as error:
 * with one point 40 % (published slopes differ by twice and half), with two points 10 % between them; beyond them what cuff errors of 5 mmHg
 * do to the slope, 7 mmHg over the difference of the pressures, 25 % at least. Choices of this project. Input: 1/1000 mmHg, µs, 1/1000 bpm,
 * seconds. Product: gain × h, 27 + 28 bits; rate term 13 + 19 bits. Accumulator: 64 bits in products, 32 bits in sums. Worst case: products
 * clip at 2^31 − 1, which is implausible and refused. Output: 1/1000 mmHg, rounded to nearest; a dozen long divisions per estimate.
 */
struct ss_pressure_estimator {
    int64_t time_s;
    int32_t arrival_us;
    int32_t systolic_milli;
    int32_t diastolic_milli;
    int32_t other_systolic_milli;
    int32_t other_diastolic_milli;
    int32_t systolic_gain_milli;
    int32_t diastolic_gain_milli;
    int32_t rate_milli_bpm;
    int32_t reach_milli;
    int16_t systolic_per_bpm_milli;
    int16_t diastolic_per_bpm_milli;
    uint16_t longest_age_days;
    uint16_t spread_us;
    uint16_t outside_permille;
    ss_pressure_model_t model;
    bool is_calibrated;
    ss_pressure_refusal_t refusal; /* Why the last calibration or estimate gave nothing. */
};

/* Slope of systolic pressure at the first point (of mean pressure in pulse_pressure) [1/1000 mmHg per ms], below 0. */
static inline int32_t ss_pressure_estimator_slope_milli_mm_hg_per_ms(const ss_pressure_estimator_t *self);

/*
 * Takes a calibration in place of what was there. A refused one leaves none.
 * calibration: The calibration.
 * Returns: Whether it holds; else refusal says why not.
 */
bool ss_pressure_estimator_calibrate(ss_pressure_estimator_t *self, const ss_pressure_calibration_t *calibration);

/* Estimates both pressures, the spread of the arrival times not being known. */
bool ss_pressure_estimator_estimate_5(ss_pressure_estimator_t *self, const ss_reading_t *arrival_spot, const ss_reading_t *heart_rate,
    int64_t now_s, ss_reading_t *systolic, ss_reading_t *diastolic);

/*
 * Estimates both pressures.
 * arrival_spot: Spot arrival time.
 * arrival_spread: Spread of the beats in it; anything else stands for a spread that is not known.
 * heart_rate: Heart rate of the same time; needed only for a rate term.
 * now_s: Now [s], on the clock of the calibration.
 * systolic: Systolic pressure, of the place and window of the arrival time.
 * diastolic: Diastolic pressure, alike.
 * Returns: Whether there are values; else refusal says why not.
 */
bool ss_pressure_estimator_estimate_6(ss_pressure_estimator_t *self, const ss_reading_t *arrival_spot, const ss_reading_t *arrival_spread,
    const ss_reading_t *heart_rate, int64_t now_s, ss_reading_t *systolic, ss_reading_t *diastolic);

int32_t ss_pressure_estimator_slope(const ss_pressure_estimator_t *self, int32_t gain_milli);

static inline int32_t ss_pressure_estimator_slope_milli_mm_hg_per_ms(const ss_pressure_estimator_t *self)
{
    return self->is_calibrated ? -ss_pressure_estimator_slope(self, self->systolic_gain_milli) : 0;
}

#endif
