/* Generated from SensorSim.Detection/Pressure/PressureEstimator.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/reading.h"
#include "fixed_point/integer_root.h"
#include "fixed_point/log2.h"
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "pressure/arrival_shape.h"
#include "pressure/cuff_point.h"
#include "pressure/pressure_calibration.h"
#include "pressure/pressure_error.h"
#include "pressure/pressure_estimator.h"
#include "pressure/pressure_limits.h"
#include "pressure/pressure_model.h"
#include "pressure/pressure_refusal.h"

static ss_reading_t ss_pressure_estimator_make(ss_reading_kind_t kind, int32_t milli, uint8_t trust, const ss_reading_t *source);
static bool ss_pressure_estimator_is_rate_of(const ss_reading_t *rate, const ss_reading_t *spot);
static bool ss_pressure_estimator_has_rate_term(const ss_pressure_estimator_t *self);
static int32_t ss_pressure_estimator_spread_of_both(const ss_pressure_estimator_t *self, int32_t spread_us);
static int32_t ss_pressure_estimator_rate_term(const ss_pressure_estimator_t *self, int32_t per_bpm_milli, int32_t rate_milli_bpm);
static void ss_pressure_estimator_at(const ss_pressure_estimator_t *self, int32_t arrival_us, int32_t rate_milli_bpm,
    int32_t *systolic_milli, int32_t *diastolic_milli);
static int32_t ss_pressure_estimator_mean_milli(int32_t systolic_milli, int32_t diastolic_milli);
static void ss_pressure_estimator_fit_one(ss_pressure_estimator_t *self, const ss_pressure_calibration_t *calibration);
static void ss_pressure_estimator_fit_two(ss_pressure_estimator_t *self, const ss_cuff_point_t *other);
static int32_t ss_pressure_estimator_quotient(int32_t milli, int32_t shape);
static int32_t ss_pressure_estimator_distance(const ss_pressure_estimator_t *self, int32_t milli, int32_t first_milli, int32_t other_milli,
    int32_t *beyond_milli);
static int32_t ss_pressure_estimator_own_gain(const ss_pressure_estimator_t *self, bool is_systolic);

bool ss_pressure_estimator_calibrate(ss_pressure_estimator_t *self, const ss_pressure_calibration_t *calibration)
{
    *self = (ss_pressure_estimator_t){ 0 };
    self->refusal = ss_pressure_limits_check_1(calibration);
    if (self->refusal != SS_PRESSURE_REFUSAL_NONE) {
        return false;
    }

    ss_cuff_point_t first = calibration->first;
    ss_cuff_point_t other = (calibration->points == 2) ? calibration->second : first;
    self->model = calibration->model;
    self->time_s = (first.time_s < other.time_s) ? first.time_s : other.time_s;
    self->arrival_us = first.arrival_us;
    self->systolic_milli = first.systolic_milli;
    self->diastolic_milli = first.diastolic_milli;
    self->other_systolic_milli = other.systolic_milli;
    self->other_diastolic_milli = other.diastolic_milli;
    self->rate_milli_bpm = first.rate_milli_bpm;
    self->reach_milli = calibration->reach_milli_mm_hg;
    self->systolic_per_bpm_milli = (int16_t)calibration->systolic_per_bpm_milli;
    self->diastolic_per_bpm_milli = (int16_t)calibration->diastolic_per_bpm_milli;
    self->longest_age_days = (uint16_t)calibration->longest_age_days;
    self->spread_us = (uint16_t)((first.spread_us == 0) ? SS_PRESSURE_ESTIMATOR_USUAL_SPREAD_US : first.spread_us);
    if (calibration->points == 2) {
        ss_pressure_estimator_fit_two(self, &other);
    }
    else {
        ss_pressure_estimator_fit_one(self, calibration);
    }

    self->is_calibrated = ss_pressure_limits_is_slope(self->systolic_gain_milli, self->arrival_us)
        && (ss_sat_abs32(self->diastolic_gain_milli) <= -self->systolic_gain_milli);
    self->refusal = (ss_pressure_refusal_t)(self->is_calibrated ? SS_PRESSURE_REFUSAL_NONE : SS_PRESSURE_REFUSAL_SLOPE_IMPLAUSIBLE);
    return self->is_calibrated;
}

bool ss_pressure_estimator_estimate_5(ss_pressure_estimator_t *self, const ss_reading_t *arrival_spot, const ss_reading_t *heart_rate,
    int64_t now_s, ss_reading_t *systolic, ss_reading_t *diastolic)
{
    ss_reading_t value = (ss_reading_t){ 0 };
    return ss_pressure_estimator_estimate_6(self, arrival_spot, &value, heart_rate, now_s, systolic, diastolic);
}

bool ss_pressure_estimator_estimate_6(ss_pressure_estimator_t *self, const ss_reading_t *arrival_spot, const ss_reading_t *arrival_spread,
    const ss_reading_t *heart_rate, int64_t now_s, ss_reading_t *systolic, ss_reading_t *diastolic)
{
    (*systolic) = (ss_reading_t){ 0 };
    (*diastolic) = (ss_reading_t){ 0 };
    int64_t age_days = (now_s - self->time_s) / (int64_t)SS_PRESSURE_ESTIMATOR_SECONDS_PER_DAY;
    self->refusal = (ss_pressure_refusal_t)(!self->is_calibrated ? SS_PRESSURE_REFUSAL_NOT_CALIBRATED
        : ((now_s < self->time_s) ? SS_PRESSURE_REFUSAL_TIME_BEFORE_CALIBRATION
        : (((now_s - self->time_s) > ((int64_t)self->longest_age_days * (int64_t)SS_PRESSURE_ESTIMATOR_SECONDS_PER_DAY))
        ? SS_PRESSURE_REFUSAL_CALIBRATION_TOO_OLD : (((arrival_spot->kind != SS_READING_KIND_ARRIVAL_SPOT) || (arrival_spot->quality == 0))
        ? SS_PRESSURE_REFUSAL_ARRIVAL_MISSING : (!ss_pressure_limits_is_arrival(arrival_spot->value_milli)
        ? SS_PRESSURE_REFUSAL_ARRIVAL_IMPLAUSIBLE : ((ss_pressure_estimator_has_rate_term(self)
        && !ss_pressure_estimator_is_rate_of(heart_rate, arrival_spot)) ? SS_PRESSURE_REFUSAL_HEART_RATE_MISSING
        : SS_PRESSURE_REFUSAL_NONE))))));
    if (self->refusal != SS_PRESSURE_REFUSAL_NONE) {
        return false;
    }

    int32_t systolic_milli = 0;
    int32_t diastolic_milli = 0;
    ss_pressure_estimator_at(self, arrival_spot->value_milli, heart_rate->value_milli, &systolic_milli, &diastolic_milli);
    int32_t systolic_beyond = 0;
    int32_t systolic_off = ss_pressure_estimator_distance(self, systolic_milli, self->systolic_milli, self->other_systolic_milli,
        &systolic_beyond);
    int32_t diastolic_beyond = 0;
    int32_t diastolic_off = ss_pressure_estimator_distance(self, diastolic_milli, self->diastolic_milli, self->other_diastolic_milli,
        &diastolic_beyond);
    int32_t spread_us = ss_pressure_estimator_spread_of_both(self, (arrival_spread->kind == SS_READING_KIND_ARRIVAL_SPREAD)
        ? arrival_spread->value_milli : SS_PRESSURE_ESTIMATOR_USUAL_SPREAD_US);
    uint8_t trust = ss_pressure_error_quality(ss_pressure_error_centi(true, (int32_t)age_days,
        ss_pressure_estimator_slope(self, ss_pressure_estimator_own_gain(self, true)), spread_us, systolic_off));
    uint8_t diastolic_trust = ss_pressure_error_quality(ss_pressure_error_centi(false, (int32_t)age_days,
        ss_pressure_estimator_slope(self, ss_pressure_estimator_own_gain(self, false)), spread_us, diastolic_off));
    self->refusal = (ss_pressure_refusal_t)(((systolic_beyond > self->reach_milli)
        || (((int64_t)diastolic_beyond * INT64_C(3)) > ((int64_t)self->reach_milli * INT64_C(2))))
        ? SS_PRESSURE_REFUSAL_OUTSIDE_CALIBRATED_RANGE
        : (!ss_pressure_limits_are_plausible(systolic_milli, diastolic_milli) ? SS_PRESSURE_REFUSAL_VALUE_IMPLAUSIBLE
        : (((trust == 0) || (diastolic_trust == 0)) ? SS_PRESSURE_REFUSAL_TOO_UNCERTAIN : SS_PRESSURE_REFUSAL_NONE)));
    if (self->refusal != SS_PRESSURE_REFUSAL_NONE) {
        return false;
    }

    (*systolic) = ss_pressure_estimator_make(SS_READING_KIND_SYSTOLIC, systolic_milli, trust, arrival_spot);
    (*diastolic) = ss_pressure_estimator_make(SS_READING_KIND_DIASTOLIC, diastolic_milli, diastolic_trust, arrival_spot);
    return true;
}

static ss_reading_t ss_pressure_estimator_make(ss_reading_kind_t kind, int32_t milli, uint8_t trust, const ss_reading_t *source)
{
    return ss_reading_make(kind, milli, (uint8_t)((trust < source->quality) ? trust : source->quality), source->ticks256,
        source->window_ticks256);
}

static bool ss_pressure_estimator_is_rate_of(const ss_reading_t *rate, const ss_reading_t *spot)
{
    return (rate->kind <= SS_READING_KIND_HEART_RATE_FUSED) && (rate->value_milli > 0) && (rate->value_milli <= 400000)
        && (rate->quality > 0) && (rate->ticks256 >= (spot->ticks256 - spot->window_ticks256))
        && (rate->ticks256 <= (spot->ticks256 + spot->window_ticks256));
}

static bool ss_pressure_estimator_has_rate_term(const ss_pressure_estimator_t *self)
{
    return (self->systolic_per_bpm_milli != 0) || (self->diastolic_per_bpm_milli != 0);
}

int32_t ss_pressure_estimator_slope(const ss_pressure_estimator_t *self, int32_t gain_milli)
{
    return ss_long_division_rounded((uint64_t)ss_sat_abs32(gain_milli) * UINT64_C(1000), (uint32_t)self->arrival_us);
}

static int32_t ss_pressure_estimator_spread_of_both(const ss_pressure_estimator_t *self, int32_t spread_us)
{
    uint32_t now = ((spread_us < 0) || (spread_us > 65535)) ? UINT32_C(65535) : (uint32_t)spread_us;

    /* Both halved, so that the sum of their squares has room. */
    return (int32_t)(UINT32_C(2) * ss_integer_root_floor(((now >> 1) * (now >> 1))
        + (((uint32_t)self->spread_us >> 1) * ((uint32_t)self->spread_us >> 1))));
}

static int32_t ss_pressure_estimator_rate_term(const ss_pressure_estimator_t *self, int32_t per_bpm_milli, int32_t rate_milli_bpm)
{
    return (per_bpm_milli == 0) ? 0 : (int32_t)(((int64_t)per_bpm_milli * (int64_t)(rate_milli_bpm
        - self->rate_milli_bpm)) / INT64_C(1000));
}

static void ss_pressure_estimator_at(const ss_pressure_estimator_t *self, int32_t arrival_us, int32_t rate_milli_bpm,
    int32_t *systolic_milli, int32_t *diastolic_milli)
{
    int32_t shape = ss_arrival_shape_q24(self->model, arrival_us, self->arrival_us);
    if (self->model == SS_PRESSURE_MODEL_PULSE_PRESSURE) {
        int32_t pulse = self->systolic_milli - self->diastolic_milli;
        int32_t mean = ss_sat_add32(ss_pressure_estimator_mean_milli(self->systolic_milli, self->diastolic_milli),
            ss_arrival_shape_times(self->systolic_gain_milli, shape));
        pulse = ss_arrival_shape_times(pulse, ss_arrival_shape_square_q24(self->arrival_us, arrival_us));
        (*diastolic_milli) = ss_sat_sub32(mean, (pulse + 1) / 3);
        (*systolic_milli) = ss_sat_add32((*diastolic_milli), pulse);
    }
    else {
        (*systolic_milli) = ss_sat_add32(self->systolic_milli, ss_arrival_shape_times(self->systolic_gain_milli, shape));
        (*diastolic_milli) = ss_sat_add32(self->diastolic_milli, ss_arrival_shape_times(self->diastolic_gain_milli, shape));
    }

    (*systolic_milli) = ss_sat_add32((*systolic_milli),
        ss_pressure_estimator_rate_term(self, self->systolic_per_bpm_milli, rate_milli_bpm));
    (*diastolic_milli) = ss_sat_add32((*diastolic_milli),
        ss_pressure_estimator_rate_term(self, self->diastolic_per_bpm_milli, rate_milli_bpm));
}

static int32_t ss_pressure_estimator_mean_milli(int32_t systolic_milli, int32_t diastolic_milli)
{
    return diastolic_milli + ((systolic_milli - diastolic_milli + 1) / 3);
}

static void ss_pressure_estimator_fit_one(ss_pressure_estimator_t *self, const ss_pressure_calibration_t *calibration)
{
    /* −2/ζ in 1/1000 mmHg from ζ in 10^-6 per mmHg. */
    self->systolic_gain_milli = (calibration->slope_milli_mm_hg_per_ms < 0)
        ? -ss_long_division_rounded((uint64_t)-((int64_t)calibration->slope_milli_mm_hg_per_ms) * (uint64_t)self->arrival_us,
        UINT32_C(1000)) : -ss_long_division_rounded(UINT64_C(2000000000), (uint32_t)calibration->zeta_micro_per_mm_hg);
    self->diastolic_gain_milli = (self->model == SS_PRESSURE_MODEL_PULSE_PRESSURE) ? self->systolic_gain_milli
        : -ss_long_division_rounded((uint64_t)-((int64_t)self->systolic_gain_milli) * (uint64_t)calibration->diastolic_share_permille,
        UINT32_C(1000));
    self->outside_permille = SS_PRESSURE_ESTIMATOR_ONE_POINT_PERMILLE;
}

static void ss_pressure_estimator_fit_two(ss_pressure_estimator_t *self, const ss_cuff_point_t *other)
{
    int32_t shape = ss_arrival_shape_q24(self->model, other->arrival_us, self->arrival_us);
    int32_t systolic = other->systolic_milli - ss_pressure_estimator_rate_term(self, self->systolic_per_bpm_milli, other->rate_milli_bpm)
        - self->systolic_milli;
    int32_t diastolic = other->diastolic_milli - ss_pressure_estimator_rate_term(self, self->diastolic_per_bpm_milli,
        other->rate_milli_bpm) - self->diastolic_milli;
    if (self->model == SS_PRESSURE_MODEL_PULSE_PRESSURE) {
        systolic = diastolic + ((systolic - diastolic) / 3);
        diastolic = systolic;
    }

    self->systolic_gain_milli = ss_pressure_estimator_quotient(systolic, shape);
    self->diastolic_gain_milli = ss_pressure_estimator_quotient(diastolic, shape);
    uint32_t apart = (uint32_t)ss_sat_abs32(self->other_systolic_milli - self->systolic_milli);
    int32_t permille = ss_long_division_rounded(UINT64_C(7000) * UINT64_C(1000), apart);
    self->outside_permille = (uint16_t)((permille < SS_PRESSURE_ESTIMATOR_LEAST_OUTSIDE_PERMILLE)
        ? SS_PRESSURE_ESTIMATOR_LEAST_OUTSIDE_PERMILLE : permille);
}

static int32_t ss_pressure_estimator_quotient(int32_t milli, int32_t shape)
{
    int32_t magnitude = ss_long_division_rounded((uint64_t)ss_sat_abs32(milli) << SS_LOG2_FRACTION_BITS, (uint32_t)ss_sat_abs32(shape));
    return ((milli < 0) == (shape < 0)) ? magnitude : -magnitude;
}

/* What of the way from the calibrated pressures counts as error, and how far beyond them the value lies. */
static int32_t ss_pressure_estimator_distance(const ss_pressure_estimator_t *self, int32_t milli, int32_t first_milli, int32_t other_milli,
    int32_t *beyond_milli)
{
    int32_t low = (first_milli < other_milli) ? first_milli : other_milli;
    int32_t high = (first_milli < other_milli) ? other_milli : first_milli;
    int32_t below = ss_sat_sub32(low, milli);
    int32_t above = ss_sat_sub32(milli, high);
    (*beyond_milli) = (below > 0) ? below : ((above > 0) ? above : 0);
    if ((*beyond_milli) > 0) {
        return ss_long_division_rounded((uint64_t)(*beyond_milli) * (uint64_t)self->outside_permille, UINT32_C(1000));
    }

    int32_t nearer = (below > above) ? -below : -above;
    return ss_long_division_rounded((uint64_t)nearer * (uint64_t)SS_PRESSURE_ESTIMATOR_INSIDE_PERMILLE, UINT32_C(1000));
}

/* The slope of each pressure itself; that of the mean is steeper for systolic by 4/3, flatter for diastolic by 2/3 of the pulse pressure. */
static int32_t ss_pressure_estimator_own_gain(const ss_pressure_estimator_t *self, bool is_systolic)
{
    int32_t gain = is_systolic ? self->systolic_gain_milli : self->diastolic_gain_milli;
    int32_t third = (self->model == SS_PRESSURE_MODEL_PULSE_PRESSURE) ? ((self->systolic_milli - self->diastolic_milli) / 3) : 0;
    return is_systolic ? (gain - (4 * third)) : (gain + (2 * third));
}
