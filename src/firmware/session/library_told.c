/* SPDX-License-Identifier: MIT */
/* What the library is told, from the items of `setup` (docs/link-protocol.md). A value out of its range is refused here, before the library sees it. */
#include <string.h>

#include "library_board.h"

enum { ALL_PAIRS = 16, CUFF_POINTS = 2 };

void ss_library_told_begin(ss_library_told *told) {
    memset(told, 0, sizeof *told);
    told->options = ss_library_options_default();
}

/* Range of each item of one value. */
typedef struct {
    uint16_t item;
    int64_t least;
    int64_t most;
} range;

/* 31,700 years: days then fit the library's field. */
#define MOST_TIME_S INT64_C(1000000000000)

static const range ranges[] = {
    {SS_LINK_SETUP_START_S, 86400, MOST_TIME_S},
    {SS_LINK_SETUP_BEAT_REFRACTORY_MS, 100, 400},
    {SS_LINK_SETUP_BEAT_T_WAVE_MS, 200, 600},
    {SS_LINK_SETUP_BEAT_THRESHOLD_PERCENT, 25, 400},
    {SS_LINK_SETUP_PULSE_REFRACTORY_MS, 150, 500},
    {SS_LINK_SETUP_PULSE_THRESHOLD_PERCENT, 25, 400},
    {SS_LINK_SETUP_GATE_SHUT_MS, 500, 15000},
    {SS_LINK_SETUP_ECG_FAULTS_TO_OPEN, 0, 12},
    {SS_LINK_SETUP_LIGHT_FAULTS_TO_OPEN, 0, 12},
    {SS_LINK_SETUP_DOUBT, 0, 8},
    {SS_LINK_SETUP_OXYGEN_PAIRS, 1, ALL_PAIRS},
    {SS_LINK_SETUP_OXYGEN_RATIO, 1, 65535},
    {SS_LINK_SETUP_OXYGEN_MILLI_PERCENT, 0, 100000},
    {SS_LINK_SETUP_PRESSURE_POINTS, 0, CUFF_POINTS},
    {SS_LINK_SETUP_PRESSURE_MODEL, 0, 4},
    {SS_LINK_SETUP_PRESSURE_SLOPE_MILLI, INT32_MIN, 0},
    {SS_LINK_SETUP_PRESSURE_ZETA_MICRO, 5000, 50000},
    {SS_LINK_SETUP_PRESSURE_DIASTOLIC_SHARE_PERMILLE, 0, 1000},
    {SS_LINK_SETUP_PRESSURE_SYSTOLIC_PER_BPM_MILLI, -5000, 5000},
    {SS_LINK_SETUP_PRESSURE_DIASTOLIC_PER_BPM_MILLI, -5000, 5000},
    {SS_LINK_SETUP_PRESSURE_LONGEST_AGE_DAYS, 1, 3650},
    {SS_LINK_SETUP_PRESSURE_REACH_MILLI, 0, 100000},
    {SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI, 50000, 250000},
    {SS_LINK_SETUP_CUFF_DIASTOLIC_MILLI, 30000, 160000},
    {SS_LINK_SETUP_CUFF_ARRIVAL_US, 80000, 450000},
    {SS_LINK_SETUP_CUFF_SPREAD_US, 0, 65535},
    {SS_LINK_SETUP_CUFF_RATE_MILLI, 0, 400000},
    {SS_LINK_SETUP_CUFF_TIME_S, -MOST_TIME_S, MOST_TIME_S},
    {SS_LINK_SETUP_TREND_ALLOWANCE256, 64, 512},
    {SS_LINK_SETUP_TREND_THRESHOLD256, 1, INT16_MAX},
    {SS_LINK_SETUP_TREND_LEARNING_DAYS, 5, 250},
    {SS_LINK_SETUP_TREND_FIRST_SD16, 1, INT16_MAX},
    {SS_LINK_SETUP_TREND_FIRST_SD_DAYS, 0, UINT8_MAX},
    {SS_LINK_SETUP_TREND_LEAST_QUALITY, 0, UINT8_MAX},
    {SS_LINK_SETUP_TREND_PER_BPM_MILLI, -5000, 5000},
    {SS_LINK_SETUP_TREND_REST_MARGIN_BPM, 0, UINT8_MAX},
};

static int is_in_range(uint16_t item, int64_t value) {
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++) {
        if (ranges[i].item == item) {
            return value >= ranges[i].least && value <= ranges[i].most;
        }
    }
    return 0;
}

/* The value is in its range, so it fits its field, from here on. */
static void put_tuning(ss_tuning_t *tuning, uint16_t item, int32_t value) {
    switch (item) {
    case SS_LINK_SETUP_BEAT_REFRACTORY_MS:
        tuning->beat_refractory_ms = (int16_t)value;
        break;
    case SS_LINK_SETUP_BEAT_T_WAVE_MS:
        tuning->beat_t_wave_ms = (int16_t)value;
        break;
    case SS_LINK_SETUP_BEAT_THRESHOLD_PERCENT:
        tuning->beat_threshold_percent = (int16_t)value;
        break;
    case SS_LINK_SETUP_PULSE_REFRACTORY_MS:
        tuning->pulse_refractory_ms = (int16_t)value;
        break;
    case SS_LINK_SETUP_PULSE_THRESHOLD_PERCENT:
        tuning->pulse_threshold_percent = (int16_t)value;
        break;
    case SS_LINK_SETUP_GATE_SHUT_MS:
        tuning->gate_shut_ms = (int16_t)value;
        break;
    case SS_LINK_SETUP_ECG_FAULTS_TO_OPEN:
        tuning->ecg_faults_to_open = (uint8_t)value;
        break;
    case SS_LINK_SETUP_LIGHT_FAULTS_TO_OPEN:
        tuning->light_faults_to_open = (uint8_t)value;
        break;
    default: /* SS_LINK_SETUP_DOUBT */
        tuning->doubt = (uint8_t)value;
        break;
    }
}

static void put_pressure(ss_pressure_calibration_t *pressure, uint16_t item, int32_t value) {
    switch (item) {
    case SS_LINK_SETUP_PRESSURE_POINTS:
        pressure->points = value;
        break;
    case SS_LINK_SETUP_PRESSURE_MODEL:
        pressure->model = (ss_pressure_model_t)value;
        break;
    case SS_LINK_SETUP_PRESSURE_SLOPE_MILLI:
        pressure->slope_milli_mm_hg_per_ms = value;
        break;
    case SS_LINK_SETUP_PRESSURE_ZETA_MICRO:
        pressure->zeta_micro_per_mm_hg = value;
        break;
    case SS_LINK_SETUP_PRESSURE_DIASTOLIC_SHARE_PERMILLE:
        pressure->diastolic_share_permille = value;
        break;
    case SS_LINK_SETUP_PRESSURE_SYSTOLIC_PER_BPM_MILLI:
        pressure->systolic_per_bpm_milli = value;
        break;
    case SS_LINK_SETUP_PRESSURE_DIASTOLIC_PER_BPM_MILLI:
        pressure->diastolic_per_bpm_milli = value;
        break;
    case SS_LINK_SETUP_PRESSURE_LONGEST_AGE_DAYS:
        pressure->longest_age_days = value;
        break;
    default: /* SS_LINK_SETUP_PRESSURE_REACH_MILLI */
        pressure->reach_milli_mm_hg = value;
        break;
    }
}

static void put_cuff(ss_cuff_point_t *cuff, uint16_t item, int64_t value) {
    switch (item) {
    case SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI:
        cuff->systolic_milli = (int32_t)value;
        break;
    case SS_LINK_SETUP_CUFF_DIASTOLIC_MILLI:
        cuff->diastolic_milli = (int32_t)value;
        break;
    case SS_LINK_SETUP_CUFF_ARRIVAL_US:
        cuff->arrival_us = (int32_t)value;
        break;
    case SS_LINK_SETUP_CUFF_SPREAD_US:
        cuff->spread_us = (int32_t)value;
        break;
    case SS_LINK_SETUP_CUFF_RATE_MILLI:
        cuff->rate_milli_bpm = (int32_t)value;
        break;
    default: /* SS_LINK_SETUP_CUFF_TIME_S */
        cuff->time_s = value;
        break;
    }
}

static void put_trend(ss_trend_settings_t *trend, uint16_t item, int32_t value) {
    switch (item) {
    case SS_LINK_SETUP_TREND_ALLOWANCE256:
        trend->allowance256 = (int16_t)value;
        break;
    case SS_LINK_SETUP_TREND_THRESHOLD256:
        trend->threshold256 = (int16_t)value;
        break;
    case SS_LINK_SETUP_TREND_LEARNING_DAYS:
        trend->learning_days = (uint8_t)value;
        break;
    case SS_LINK_SETUP_TREND_FIRST_SD16:
        trend->first_sd16 = (int16_t)value;
        break;
    case SS_LINK_SETUP_TREND_FIRST_SD_DAYS:
        trend->first_sd_days = (uint8_t)value;
        break;
    case SS_LINK_SETUP_TREND_LEAST_QUALITY:
        trend->least_quality = (uint8_t)value;
        break;
    case SS_LINK_SETUP_TREND_PER_BPM_MILLI:
        trend->per_bpm_milli = (int16_t)value;
        break;
    default: /* SS_LINK_SETUP_TREND_REST_MARGIN_BPM */
        trend->rest_margin_bpm = (uint8_t)value;
        break;
    }
}

/* Pairs may come in any order; the table is made of them at the end. */
static int put_oxygen(ss_library_told *told, uint16_t item, uint16_t index, int32_t value) {
    if (item == SS_LINK_SETUP_OXYGEN_PAIRS) {
        told->ratio_told = 0;
        told->percent_told = 0;
        told->pairs = (uint8_t)value;
        return index == 0u;
    }
    if (index >= told->pairs) {
        return 0;
    }
    if (item == SS_LINK_SETUP_OXYGEN_RATIO) {
        told->ratio_told = (uint16_t)(told->ratio_told | (1u << index));
        told->ratios[index] = value;
    } else {
        told->percent_told = (uint16_t)(told->percent_told | (1u << index));
        told->percents[index] = value;
    }
    return 1;
}

int ss_library_told_item(ss_library_told *told, uint16_t item, uint16_t index, int64_t value) {
    if (!is_in_range(item, value)) {
        return 0;
    }
    if (item >= SS_LINK_SETUP_OXYGEN_PAIRS && item <= SS_LINK_SETUP_OXYGEN_MILLI_PERCENT) {
        return put_oxygen(told, item, index, (int32_t)value);
    }
    if (item >= SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI && item <= SS_LINK_SETUP_CUFF_TIME_S) {
        if (index >= CUFF_POINTS) {
            return 0;
        }
        put_cuff(index == 0u ? &told->options.pressure.first : &told->options.pressure.second, item, value);
        return 1;
    }
    if (index != 0u) {
        return 0;
    }
    if (item == SS_LINK_SETUP_START_S) {
        told->options.start_s = value;
    } else if (item < SS_LINK_SETUP_OXYGEN_PAIRS) {
        put_tuning(&told->options.tuning, item, (int32_t)value);
    } else if (item < SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI) {
        put_pressure(&told->options.pressure, item, (int32_t)value);
    } else {
        put_trend(&told->options.trend, item, (int32_t)value);
    }
    return 1;
}

int ss_library_told_end(ss_library_told *told) {
    if (told->pairs == 0u) {
        return 1;
    }
    const uint32_t all = (1u << told->pairs) - 1u;
    if ((told->ratio_told & all) != all || (told->percent_told & all) != all) {
        return 0;
    }
    memset(&told->options.oxygen, 0, sizeof told->options.oxygen);
    for (uint8_t i = 0; i < told->pairs; i++) {
        if (!ss_oxygen_table_add(&told->options.oxygen, told->ratios[i], told->percents[i])) {
            return 0;
        }
    }
    return 1;
}
