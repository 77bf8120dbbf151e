/* Generated from SensorSim.Detection/Pressure/PressureTrend.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "fixed_point/integer_root.h"
#include "fixed_point/long_division.h"
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pressure/cusum.h"
#include "pressure/pressure_trend.h"
#include "pressure/trend_settings.h"

static bool ss_pressure_trend_day_value(const ss_pressure_trend_t *self, int32_t *deviation256, int32_t *days);
static void ss_pressure_trend_judge(ss_pressure_trend_t *self, const ss_trend_settings_t *settings, int32_t deviation256, int32_t days);
static uint64_t ss_pressure_trend_variance(const ss_pressure_trend_t *self, const ss_trend_settings_t *settings);
static void ss_pressure_trend_learn_day(ss_pressure_trend_t *self);
static int32_t ss_pressure_trend_told_shift(const ss_pressure_trend_t *self);
static int32_t ss_pressure_trend_larger(const ss_pressure_trend_t *self);
static bool ss_pressure_trend_is_at_rest(const ss_pressure_trend_t *self, const ss_trend_settings_t *settings,
    const ss_reading_t *heart_rate);
static int32_t ss_pressure_trend_above_usual16(const ss_pressure_trend_t *self, const ss_reading_t *heart_rate);
static void ss_pressure_trend_learn_rate(ss_pressure_trend_t *self, const ss_reading_t *heart_rate);
static bool ss_pressure_trend_has_rate(const ss_reading_t *heart_rate);
static int32_t ss_pressure_trend_rate16(const ss_reading_t *heart_rate);
static int32_t ss_pressure_trend_to_q8(int32_t milli);

bool ss_pressure_trend_add(ss_pressure_trend_t *self, const ss_trend_settings_t *settings, const ss_common_clock_t *clock,
    const ss_reading_t *spot, const ss_reading_t *heart_rate, int64_t local_time_s, ss_reading_t *trend)
{
    (*trend) = (ss_reading_t){ 0 };
    int32_t day = (int32_t)(local_time_s / (int64_t)SS_PRESSURE_TREND_SECONDS_PER_DAY);
    bool is_told = ss_pressure_trend_end_day(self, settings, day);
    if (is_told) {
        int64_t seconds = (int64_t)(day - ss_pressure_trend_began_day(self)) * (int64_t)SS_PRESSURE_TREND_SECONDS_PER_DAY;
        int32_t strength = ss_long_division_rounded((uint64_t)ss_pressure_trend_larger(self) * UINT64_C(128),
            (uint32_t)settings->threshold256);
        (*trend) = ss_reading_make(SS_READING_KIND_PRESSURE_TREND, ss_pressure_trend_change_milli(self),
            (uint8_t)((strength > 255) ? 255 : strength), spot->ticks256, seconds * INT64_C(256) * clock->ticks_per_second);
    }

    if ((spot->quality >= settings->least_quality) && ss_pressure_trend_is_at_rest(self, settings, heart_rate)) {
        int32_t part = (int32_t)((local_time_s - ((int64_t)day * (int64_t)SS_PRESSURE_TREND_SECONDS_PER_DAY)) / (int64_t)21600);
        int32_t milli = spot->value_milli - (int32_t)(((int64_t)settings->per_bpm_milli * (int64_t)ss_pressure_trend_above_usual16(self,
            heart_rate)) / INT64_C(16));
        int32_t value256 = ss_pressure_trend_to_q8(milli);
        int32_t count = (self->spots.at[part] < 255) ? (self->spots.at[part] + 1) : 255;
        self->spots.at[part] = (uint8_t)count;
        self->today256.at[part] += (value256 - self->today256.at[part]) / count;
    }

    ss_pressure_trend_learn_rate(self, heart_rate);
    return is_told;
}

bool ss_pressure_trend_end_day(ss_pressure_trend_t *self, const ss_trend_settings_t *settings, int32_t day)
{
    if (day <= self->day) {
        return false;
    }

    int32_t deviation256 = 0;
    int32_t days = 0;
    bool has_value = ss_pressure_trend_day_value(self, &deviation256, &days);
    if (has_value) {
        ss_pressure_trend_judge(self, settings, deviation256, days);
    }

    ss_pressure_trend_learn_day(self);
    self->day = day;
    self->today256 = (ss_pressure_trend_part_values_t){ 0 };
    self->spots = (ss_pressure_trend_part_counts_t){ 0 };
    return has_value && self->is_told;
}

/* Median over the parts of the day that have readings and a usual value; how many days the usual values stand on, on average. */
static bool ss_pressure_trend_day_value(const ss_pressure_trend_t *self, int32_t *deviation256, int32_t *days)
{
    ss_word8_t deviations = (ss_word8_t){ 0 };
    int32_t count = 0;
    (*days) = 0;
    for (int32_t i = 0; i < SS_PRESSURE_TREND_PARTS; i++) {
        if ((self->spots.at[i] > 0) && (self->days.at[i] > 0)) {
            int32_t value = count;
            count++;
            deviations.at[value] = ss_sat_narrow(self->today256.at[i] - self->usual256.at[i], SS_PRESSURE_TREND_MOST_DEVIATION256);
            (*days) += self->days.at[i];
        }
    }

    (*deviation256) = (count == 0) ? 0 : ss_median_of_up_to8(ss_view_int32_slice(ss_view_int32_of(deviations.at, 8), 0, count));
    (*days) = (count == 0) ? 0 : ((*days) / count);
    return count > 0;
}

static void ss_pressure_trend_judge(ss_pressure_trend_t *self, const ss_trend_settings_t *settings, int32_t deviation256, int32_t days)
{
    /* Root of the variance in (1/16 mmHg)², with 8 more bits below, is in 1/256 mmHg. */
    uint64_t scaled = ((ss_pressure_trend_variance(self, settings) << 8) * (uint64_t)(days + 1)) / (uint64_t)days;
    int32_t sd256 = (int32_t)ss_integer_root_floor((scaled > UINT64_C(4294967295)) ? UINT32_C(4294967295) : (uint32_t)scaled);
    int32_t standardised = ss_sat_narrow((deviation256 * 256) / ((sd256 < 16) ? 16 : sd256), 64 * 256);
    if ((self->day_count + 1) >= settings->learning_days) {
        int32_t most = settings->threshold256 + (2 * 256);
        ss_cusum_add(&self->up, standardised, deviation256, settings->allowance256, most, self->day);
        ss_cusum_add(&self->down, -standardised, -deviation256, settings->allowance256, most, self->day);
    }

    self->is_told = ss_pressure_trend_larger(self) > settings->threshold256;
    if (!self->is_told) {
        int32_t deviation16 = ss_shift_round(deviation256, 4);
        uint64_t sum = (uint64_t)self->squares256 + (((uint64_t)((int64_t)deviation16 * (int64_t)deviation16) * (uint64_t)days) / (uint64_t)(days + 1));
        bool is_full = (sum > UINT64_C(2147483647)) || (self->day_count >= SS_PRESSURE_TREND_MOST_DAYS);
        self->squares256 = is_full ? self->squares256 : (uint32_t)sum;
        self->products256 = is_full ? self->products256 : ss_sat_add32(self->products256, self->last16 * deviation16);
        self->day_count = (uint16_t)(self->day_count + (uint16_t)(is_full ? 0 : 1));
        self->last16 = (int16_t)deviation16;
    }
}

/*
 * Variance of a day [(1/16 mmHg)²], as large as independent days must have for their sums to scatter like these: times (1 + φ)/(1 − φ), with φ
 * the correlation of one day with the next, learned as well, up to a half.
 */
static uint64_t ss_pressure_trend_variance(const ss_pressure_trend_t *self, const ss_trend_settings_t *settings)
{
    int64_t assumed = (int64_t)settings->first_sd16 * (int64_t)settings->first_sd16 * (int64_t)settings->first_sd_days;
    int64_t squares = assumed + (int64_t)self->squares256;
    int64_t most = squares / INT64_C(2);
    int64_t products = (self->products256 < 0) ? INT64_C(0) : (((int64_t)self->products256 > most) ? most : (int64_t)self->products256);
    uint64_t variance = (uint64_t)squares / (uint64_t)(settings->first_sd_days + self->day_count);
    return (variance * (uint64_t)ss_shift_right64(squares + products, 8)) / (uint64_t)ss_shift_right64(squares - products + INT64_C(256),
        8);
}

/* The usual values follow the day by its share of all days; a part of the day that is new is taken as it is. */
static void ss_pressure_trend_learn_day(ss_pressure_trend_t *self)
{
    int32_t known = 0;
    int32_t moved = 0;
    for (int32_t i = 0; i < SS_PRESSURE_TREND_PARTS; i++) {
        known += (self->days.at[i] > 0) ? 1 : 0;
        if ((self->spots.at[i] == 0) || (self->is_told && (self->days.at[i] > 0))) {
            continue;
        }

        int32_t count = (self->days.at[i] < 255) ? (self->days.at[i] + 1) : 255;
        int32_t by = (count == 1) ? 0 : (ss_sat_narrow(self->today256.at[i] - self->usual256.at[i],
            SS_PRESSURE_TREND_MOST_DEVIATION256) / count);
        self->usual256.at[i] = (count == 1) ? (self->today256.at[i] - (self->is_told ? ss_pressure_trend_told_shift(self) : 0))
            : (self->usual256.at[i] + by);
        self->days.at[i] = (uint8_t)count;
        moved += by;
    }

    if ((known > 0) && (moved != 0)) {
        ss_cusum_move(&self->up, moved / known);
        ss_cusum_move(&self->down, -moved / known);
    }
}

static int32_t ss_pressure_trend_told_shift(const ss_pressure_trend_t *self)
{
    return (self->up.sum256 >= self->down.sum256) ? ss_cusum_size256(&self->up) : -ss_cusum_size256(&self->down);
}

static int32_t ss_pressure_trend_larger(const ss_pressure_trend_t *self)
{
    return (self->up.sum256 >= self->down.sum256) ? self->up.sum256 : self->down.sum256;
}

static bool ss_pressure_trend_is_at_rest(const ss_pressure_trend_t *self, const ss_trend_settings_t *settings,
    const ss_reading_t *heart_rate)
{
    return !ss_pressure_trend_has_rate(heart_rate) || (self->rate16 == 0)
        || (ss_pressure_trend_above_usual16(self, heart_rate) <= (settings->rest_margin_bpm * 16));
}

static int32_t ss_pressure_trend_above_usual16(const ss_pressure_trend_t *self, const ss_reading_t *heart_rate)
{
    return (ss_pressure_trend_has_rate(heart_rate) && (self->rate16 > 0)) ? (ss_pressure_trend_rate16(heart_rate) - self->rate16) : 0;
}

/* Falls an eighth of the way, rises a thirty-second: what is usual is the rate at rest. */
static void ss_pressure_trend_learn_rate(ss_pressure_trend_t *self, const ss_reading_t *heart_rate)
{
    if (ss_pressure_trend_has_rate(heart_rate)) {
        int32_t off = ss_pressure_trend_rate16(heart_rate) - self->rate16;
        self->rate16 = (uint16_t)((self->rate16 == 0) ? ss_pressure_trend_rate16(heart_rate)
            : (self->rate16 + ss_shift_round(off, (off < 0) ? 3 : 5)));
    }
}

static bool ss_pressure_trend_has_rate(const ss_reading_t *heart_rate)
{
    return (heart_rate->kind <= SS_READING_KIND_HEART_RATE_FUSED) && (heart_rate->quality > 0)
        && ((heart_rate->value_milli > 0) && (heart_rate->value_milli <= 400000));
}

static int32_t ss_pressure_trend_rate16(const ss_reading_t *heart_rate)
{
    return (heart_rate->value_milli * 16) / 1000;
}

static int32_t ss_pressure_trend_to_q8(int32_t milli)
{
    return (int32_t)(((int64_t)ss_sat_narrow(milli, 1000000) * INT64_C(256)) / INT64_C(1000));
}

int32_t ss_pressure_trend_to_milli(int32_t q8)
{
    return (int32_t)(((int64_t)q8 * INT64_C(1000)) / INT64_C(256));
}
