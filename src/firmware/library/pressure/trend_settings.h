/* Generated from SensorSim.Detection/Pressure/TrendSettings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_TREND_SETTINGS_H
#define SS_PRESSURE_TREND_SETTINGS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Days of readings between false alarms by default. A choice: one a year. */
#define SS_TREND_SETTINGS_USUAL_FALSE_ALARM_DAYS 365
#define SS_TREND_SETTINGS_ROUNDS 12

/*
 * What the trend is looked for with. Constant after set-up, no part of the state.
 * Threshold by Siegmund 1985 (formula from memory, as in Montgomery): with b = h + 1.166 and y = 2 k b, a one-sided sum of standard normal
 * values exceeds h after (e^y − y − 1) / (2 k²) of them on average; both sides together after half of that, A. So y = ln(1 + y + 4 k² A),
 * which a few rounds solve. Input: days up to 36,500; k in Q24.8, 64 to 512. Product: k² A in Q.16, 35 bits. Accumulator: 64 bits; argument of
 * the logarithm in UQ20.12. Worst case: 1 + 18 + 16 × 36,500 below 2^20. Output: h in Q24.8, within 1 % of the formula.
 */
struct ss_trend_settings {
    int16_t allowance256; /* Allowance k [1/256 standard deviation]: half of the change that is looked for. */
    int16_t threshold256; /* Threshold h [1/256 standard deviation]. */
    uint8_t learning_days; /* Days with readings before a change may be told, 5 to 250. */
    /* Standard deviation from day to day that is assumed at first [1/16 mmHg]; weighs as many days as it is learned from. */
    int16_t first_sd16;
    uint8_t first_sd_days; /* Days that the assumed deviation weighs. */
    uint8_t least_quality; /* Smallest quality of a spot reading that counts. */
    int16_t per_bpm_milli; /* Pressure for each bpm away from the usual rate that is taken off [1/1000 mmHg], −5,000 to 5,000. */
    uint8_t rest_margin_bpm; /* Spots at a rate this far above the usual one are not at rest and do not count [bpm]. */
};

/*
 * The usual settings.
 * false_alarm_days: Days with readings between two false alarms, on average, 20 to 36,500; clipped.
 * allowance256: Allowance k [1/256 standard deviation], 64 to 512; clipped. 128 looks for a change of one deviation.
 */
ss_trend_settings_t ss_trend_settings_create(int32_t false_alarm_days, int32_t allowance256);

#endif
