/* Generated from SensorSim.Detection/Pipeline/PressurePath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_PRESSURE_PATH_H
#define SS_PIPELINE_PRESSURE_PATH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pressure/pressure_estimator.h"
#include "pressure/pressure_refusal.h"
#include "pressure/pressure_trend.h"
#include "pressure/trend_settings.h"

/*
 * From a spot arrival time to pressures and their trend, once in 5 s. Does nothing without a calibration.
 * One trend, of systolic pressure: diastolic pressure follows from the same arrival time by the same curve, so a second trend would bring no
 * news and as many false alarms again.
 */
struct ss_pressure_path {
    ss_pressure_estimator_t estimator;
    ss_pressure_trend_t trend;
    ss_trend_settings_t settings;
    int64_t start_s;
    bool is_there;
};

/* Why there is no pressure. */
static inline ss_pressure_refusal_t ss_pressure_path_refusal(const ss_pressure_path_t *self);

/*
 * Forgets, and takes the calibration if there is one.
 * options: What the library was told.
 */
void ss_pressure_path_start(ss_pressure_path_t *self, const ss_library_options_t *options);

/*
 * Takes a calibration in place of what was there, and begins the trend anew, as its usual values were the old curve's.
 * calibration: The calibration.
 * Returns: Whether it holds; a refused one leaves none.
 */
bool ss_pressure_path_calibrate(ss_pressure_path_t *self, const ss_pressure_calibration_t *calibration);

/*
 * Takes a spot arrival time.
 * clock: The common clock.
 * spot: The arrival time.
 * spread: Spread of its beats.
 * rate: Heart rate of the same time; of value 0 when there is none.
 * systolic: Systolic pressure.
 * diastolic: Diastolic pressure.
 * change: The trend; of its kind only when one is told.
 * Returns: Whether there are pressures; the trend is told with them only.
 */
bool ss_pressure_path_estimate(ss_pressure_path_t *self, ss_common_clock_t clock, const ss_reading_t *spot, const ss_reading_t *spread,
    const ss_reading_t *rate, ss_reading_t *systolic, ss_reading_t *diastolic, ss_reading_t *change);

static inline ss_pressure_refusal_t ss_pressure_path_refusal(const ss_pressure_path_t *self)
{
    return self->estimator.refusal;
}

#endif
