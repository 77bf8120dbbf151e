/* Generated from SensorSim.Detection/Pressure/PressureLimits.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "pressure/cuff_point.h"
#include "pressure/pressure_calibration.h"
#include "pressure/pressure_limits.h"
#include "pressure/pressure_model.h"
#include "pressure/pressure_refusal.h"

static ss_pressure_refusal_t ss_pressure_limits_check_2(const ss_cuff_point_t *point, const ss_pressure_calibration_t *c);

bool ss_pressure_limits_are_plausible(int32_t systolic_milli, int32_t diastolic_milli)
{
    return (systolic_milli >= 50000) && (systolic_milli <= 250000) && (diastolic_milli >= 30000) && (diastolic_milli <= 160000)
        && ((systolic_milli - diastolic_milli) > 10000);
}

bool ss_pressure_limits_is_arrival(int32_t us)
{
    return (us >= SS_PRESSURE_LIMITS_SHORTEST_US) && (us <= SS_PRESSURE_LIMITS_LONGEST_US);
}

ss_pressure_refusal_t ss_pressure_limits_check_1(const ss_pressure_calibration_t *c)
{
    bool is_in_range = ((c->points == 1) || (c->points == 2)) && (c->model <= SS_PRESSURE_MODEL_PULSE_PRESSURE)
        && (c->slope_milli_mm_hg_per_ms <= 0) && ((c->zeta_micro_per_mm_hg >= 5000) && (c->zeta_micro_per_mm_hg <= 50000))
        && ((c->diastolic_share_permille >= 0) && (c->diastolic_share_permille <= 1000))
        && ((c->systolic_per_bpm_milli >= -5000) && (c->systolic_per_bpm_milli <= 5000))
        && ((c->diastolic_per_bpm_milli >= -5000) && (c->diastolic_per_bpm_milli <= 5000))
        && ((c->longest_age_days >= 1) && (c->longest_age_days <= 3650))
        && ((c->reach_milli_mm_hg >= 0) && (c->reach_milli_mm_hg <= 100000));
    if (!is_in_range) {
        return SS_PRESSURE_REFUSAL_SETTING_OUT_OF_RANGE;
    }

    ss_pressure_refusal_t first = ss_pressure_limits_check_2(&c->first, c);
    ss_pressure_refusal_t second = (ss_pressure_refusal_t)((c->points == 2) ? ss_pressure_limits_check_2(&c->second, c)
        : SS_PRESSURE_REFUSAL_NONE);
    if ((first != SS_PRESSURE_REFUSAL_NONE) || (second != SS_PRESSURE_REFUSAL_NONE)) {
        return (ss_pressure_refusal_t)((first != SS_PRESSURE_REFUSAL_NONE) ? first : second);
    }

    return (ss_pressure_refusal_t)(((c->points == 2)
        && ((ss_sat_abs32(c->first.arrival_us - c->second.arrival_us) < SS_PRESSURE_LIMITS_LEAST_APART_US)
        || (ss_sat_abs32(c->first.systolic_milli - c->second.systolic_milli) < SS_PRESSURE_LIMITS_LEAST_APART_MILLI)))
        ? SS_PRESSURE_REFUSAL_POINTS_TOO_CLOSE : SS_PRESSURE_REFUSAL_NONE);
}

bool ss_pressure_limits_is_slope(int32_t gain_milli, int32_t arrival_us)
{
    return (gain_milli < 0) && ((-INT64_C(1000) * (int64_t)gain_milli) >= ((int64_t)SS_PRESSURE_LIMITS_LEAST_SLOPE_MILLI * (int64_t)arrival_us)) && ((-INT64_C(1000) * (int64_t)gain_milli) <= ((int64_t)SS_PRESSURE_LIMITS_MOST_SLOPE_MILLI * (int64_t)arrival_us));
}

static ss_pressure_refusal_t ss_pressure_limits_check_2(const ss_cuff_point_t *point, const ss_pressure_calibration_t *c)
{
    bool needs_rate = (c->systolic_per_bpm_milli != 0) || (c->diastolic_per_bpm_milli != 0);
    return (ss_pressure_refusal_t)(!ss_pressure_limits_are_plausible(point->systolic_milli, point->diastolic_milli)
        ? SS_PRESSURE_REFUSAL_CUFF_IMPLAUSIBLE : (!ss_pressure_limits_is_arrival(point->arrival_us)
        ? SS_PRESSURE_REFUSAL_ARRIVAL_IMPLAUSIBLE : (((point->spread_us < 0) || (point->spread_us > 65535)
        || ((point->rate_milli_bpm < 0) || (point->rate_milli_bpm > 400000))) ? SS_PRESSURE_REFUSAL_SETTING_OUT_OF_RANGE
        : ((needs_rate && (point->rate_milli_bpm == 0)) ? SS_PRESSURE_REFUSAL_HEART_RATE_MISSING : SS_PRESSURE_REFUSAL_NONE))));
}
