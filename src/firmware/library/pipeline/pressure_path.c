/* Generated from SensorSim.Detection/Pipeline/PressurePath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "pipeline/library_options.h"
#include "pipeline/pressure_path.h"
#include "pressure/pressure_calibration.h"
#include "pressure/pressure_estimator.h"
#include "pressure/pressure_trend.h"
#include "pressure/trend_settings.h"

void ss_pressure_path_start(ss_pressure_path_t *self, const ss_library_options_t *options)
{
    *self = (ss_pressure_path_t){ 0 };
    self->settings = options->trend;
    self->start_s = options->start_s;
    if (options->pressure.points > 0) {
        (void)ss_pressure_path_calibrate(self, &options->pressure);
    }
}

bool ss_pressure_path_calibrate(ss_pressure_path_t *self, const ss_pressure_calibration_t *calibration)
{
    self->trend = (ss_pressure_trend_t){ 0 };
    self->is_there = ss_pressure_estimator_calibrate(&self->estimator, calibration);
    return self->is_there;
}

bool ss_pressure_path_estimate(ss_pressure_path_t *self, ss_common_clock_t clock, const ss_reading_t *spot, const ss_reading_t *spread,
    const ss_reading_t *rate, ss_reading_t *systolic, ss_reading_t *diastolic, ss_reading_t *change)
{
    (*change) = (ss_reading_t){ 0 };
    (*systolic) = (ss_reading_t){ 0 };
    (*diastolic) = (ss_reading_t){ 0 };
    if (!self->is_there) {
        return false;
    }

    int64_t now_s = self->start_s + (int64_t)ss_common_clock_seconds(clock, spot->ticks256);
    bool is_new = ss_pressure_estimator_estimate_6(&self->estimator, spot, spread, rate, now_s, systolic, diastolic);
    if (is_new) {
        (void)ss_pressure_trend_add(&self->trend, &self->settings, &clock, systolic, rate, now_s, change);
    }

    return is_new;
}
