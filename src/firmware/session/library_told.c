/* SPDX-License-Identifier: MIT */
/* What the library is told, from the items of `setup` (docs/link-protocol.md). Ranges are those of the fields; what a value means is for the library. */
#include <string.h>

#include "library_board.h"

enum { ALL_PAIRS = 16, CUFF_POINTS = 2 };

void ss_library_told_begin(ss_library_told *told) {
    memset(told, 0, sizeof *told);
    told->options = ss_library_options_default();
}

static int put_u8(uint8_t *field, int64_t value) {
    if (value < 0 || value > UINT8_MAX) {
        return 0;
    }
    *field = (uint8_t)value;
    return 1;
}

static int put_s16(int16_t *field, int64_t value) {
    if (value < INT16_MIN || value > INT16_MAX) {
        return 0;
    }
    *field = (int16_t)value;
    return 1;
}

static int put_s32(int32_t *field, int64_t value) {
    if (value < INT32_MIN || value > INT32_MAX) {
        return 0;
    }
    *field = (int32_t)value;
    return 1;
}

static int put_tuning(ss_tuning_t *tuning, uint16_t item, int64_t value) {
    switch (item) {
    case SS_LINK_SETUP_BEAT_REFRACTORY_MS:
        return put_s16(&tuning->beat_refractory_ms, value);
    case SS_LINK_SETUP_BEAT_T_WAVE_MS:
        return put_s16(&tuning->beat_t_wave_ms, value);
    case SS_LINK_SETUP_BEAT_THRESHOLD_PERCENT:
        return put_s16(&tuning->beat_threshold_percent, value);
    case SS_LINK_SETUP_PULSE_REFRACTORY_MS:
        return put_s16(&tuning->pulse_refractory_ms, value);
    case SS_LINK_SETUP_PULSE_THRESHOLD_PERCENT:
        return put_s16(&tuning->pulse_threshold_percent, value);
    case SS_LINK_SETUP_GATE_SHUT_MS:
        return put_s16(&tuning->gate_shut_ms, value);
    case SS_LINK_SETUP_ECG_FAULTS_TO_OPEN:
        return put_u8(&tuning->ecg_faults_to_open, value);
    case SS_LINK_SETUP_LIGHT_FAULTS_TO_OPEN:
        return put_u8(&tuning->light_faults_to_open, value);
    case SS_LINK_SETUP_DOUBT:
        return put_u8(&tuning->doubt, value);
    default:
        return 0;
    }
}

static int put_pressure(ss_pressure_calibration_t *pressure, uint16_t item, int64_t value) {
    switch (item) {
    case SS_LINK_SETUP_PRESSURE_POINTS:
        return value <= CUFF_POINTS && value >= 0 && put_s32(&pressure->points, value);
    case SS_LINK_SETUP_PRESSURE_MODEL:
        return put_u8(&pressure->model, value);
    case SS_LINK_SETUP_PRESSURE_SLOPE_MILLI:
        return put_s32(&pressure->slope_milli_mm_hg_per_ms, value);
    case SS_LINK_SETUP_PRESSURE_ZETA_MICRO:
        return put_s32(&pressure->zeta_micro_per_mm_hg, value);
    case SS_LINK_SETUP_PRESSURE_DIASTOLIC_SHARE_PERMILLE:
        return put_s32(&pressure->diastolic_share_permille, value);
    case SS_LINK_SETUP_PRESSURE_SYSTOLIC_PER_BPM_MILLI:
        return put_s32(&pressure->systolic_per_bpm_milli, value);
    case SS_LINK_SETUP_PRESSURE_DIASTOLIC_PER_BPM_MILLI:
        return put_s32(&pressure->diastolic_per_bpm_milli, value);
    case SS_LINK_SETUP_PRESSURE_LONGEST_AGE_DAYS:
        return put_s32(&pressure->longest_age_days, value);
    case SS_LINK_SETUP_PRESSURE_REACH_MILLI:
        return put_s32(&pressure->reach_milli_mm_hg, value);
    default:
        return 0;
    }
}

static int put_cuff(ss_cuff_point_t *cuff, uint16_t item, int64_t value) {
    switch (item) {
    case SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI:
        return put_s32(&cuff->systolic_milli, value);
    case SS_LINK_SETUP_CUFF_DIASTOLIC_MILLI:
        return put_s32(&cuff->diastolic_milli, value);
    case SS_LINK_SETUP_CUFF_ARRIVAL_US:
        return put_s32(&cuff->arrival_us, value);
    case SS_LINK_SETUP_CUFF_SPREAD_US:
        return put_s32(&cuff->spread_us, value);
    case SS_LINK_SETUP_CUFF_RATE_MILLI:
        return put_s32(&cuff->rate_milli_bpm, value);
    case SS_LINK_SETUP_CUFF_TIME_S:
        cuff->time_s = value;
        return 1;
    default:
        return 0;
    }
}

static int put_trend(ss_trend_settings_t *trend, uint16_t item, int64_t value) {
    switch (item) {
    case SS_LINK_SETUP_TREND_ALLOWANCE256:
        return put_s16(&trend->allowance256, value);
    case SS_LINK_SETUP_TREND_THRESHOLD256:
        return put_s16(&trend->threshold256, value);
    case SS_LINK_SETUP_TREND_LEARNING_DAYS:
        return put_u8(&trend->learning_days, value);
    case SS_LINK_SETUP_TREND_FIRST_SD16:
        return put_s16(&trend->first_sd16, value);
    case SS_LINK_SETUP_TREND_FIRST_SD_DAYS:
        return put_u8(&trend->first_sd_days, value);
    case SS_LINK_SETUP_TREND_LEAST_QUALITY:
        return put_u8(&trend->least_quality, value);
    case SS_LINK_SETUP_TREND_PER_BPM_MILLI:
        return put_s16(&trend->per_bpm_milli, value);
    case SS_LINK_SETUP_TREND_REST_MARGIN_BPM:
        return put_u8(&trend->rest_margin_bpm, value);
    default:
        return 0;
    }
}

/* Pairs may come in any order; the table is made of them at the end. */
static int put_oxygen(ss_library_told *told, uint16_t item, uint16_t index, int64_t value) {
    if (item == SS_LINK_SETUP_OXYGEN_PAIRS) {
        told->ratio_told = 0;
        told->percent_told = 0;
        return index == 0u && value >= 1 && value <= ALL_PAIRS && put_u8(&told->pairs, value);
    }
    if (index >= told->pairs) {
        return 0;
    }
    if (item == SS_LINK_SETUP_OXYGEN_RATIO) {
        told->ratio_told = (uint16_t)(told->ratio_told | (1u << index));
        return put_s32(&told->ratios[index], value);
    }
    told->percent_told = (uint16_t)(told->percent_told | (1u << index));
    return item == SS_LINK_SETUP_OXYGEN_MILLI_PERCENT && put_s32(&told->percents[index], value);
}

int ss_library_told_item(ss_library_told *told, uint16_t item, uint16_t index, int64_t value) {
    if (item >= SS_LINK_SETUP_OXYGEN_PAIRS && item <= SS_LINK_SETUP_OXYGEN_MILLI_PERCENT) {
        return put_oxygen(told, item, index, value);
    }
    if (item >= SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI && item <= SS_LINK_SETUP_CUFF_TIME_S) {
        return index < CUFF_POINTS && put_cuff(index == 0u ? &told->options.pressure.first : &told->options.pressure.second, item, value);
    }
    if (index != 0u) {
        return 0;
    }
    if (item == SS_LINK_SETUP_START_S) {
        told->options.start_s = value;
        return value >= 0;
    }
    if (item < SS_LINK_SETUP_OXYGEN_PAIRS) {
        return put_tuning(&told->options.tuning, item, value);
    }
    if (item < SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI) {
        return put_pressure(&told->options.pressure, item, value);
    }
    return put_trend(&told->options.trend, item, value);
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
