/* Generated from SensorSim.Detection/Pressure/TrendSettings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/log2.h"
#include "fixed_point/long_division.h"
#include "fixed_point/shift.h"
#include "pressure/trend_settings.h"

static int16_t ss_trend_settings_threshold(int32_t days, int32_t k256);

ss_trend_settings_t ss_trend_settings_create(int32_t false_alarm_days, int32_t allowance256)
{
    int32_t k = (allowance256 < 64) ? 64 : ((allowance256 > 512) ? 512 : allowance256);
    int32_t days = (false_alarm_days < 20) ? 20 : ((false_alarm_days > 36500) ? 36500 : false_alarm_days);
    return (ss_trend_settings_t){ .allowance256 = (int16_t)k, .threshold256 = ss_trend_settings_threshold(days, k), .learning_days = 14,
        .first_sd16 = 112, .first_sd_days = 14, .least_quality = 1, .rest_margin_bpm = 20 };
}

static int16_t ss_trend_settings_threshold(int32_t days, int32_t k256)
{
    /* 1 + 4 k² A in Q.12. */
    int64_t fixed_part = INT64_C(4096) + ((INT64_C(4) * (int64_t)k256 * (int64_t)k256 * (int64_t)days) / INT64_C(16));
    /* 12 ln 2 in Q8.24 */
    int32_t y24 = 0;
    for (int32_t i = 0; i < SS_TREND_SETTINGS_ROUNDS; i++) {
        y24 = ss_log2_natural_q24((uint32_t)(fixed_part + (int64_t)ss_shift_floor(y24, 12))) - 139548960;
    }

    /* h = y / (2 k) − 1.166, all in Q.8: y24 / 2^16 is y256, times 256 over 2 k256. */
    return (int16_t)(ss_long_division_rounded((uint64_t)y24, (uint32_t)(2 * k256) << 8) - 298);
}
