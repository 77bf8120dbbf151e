/* Generated from SensorSim.Detection/Readings/Respiration.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "readings/beat_clock.h"
#include "readings/breath_series.h"
#include "readings/breath_spectrum.h"
#include "readings/respiration.h"

static inline int64_t ss_respiration_step256(const ss_respiration_t *self);
static bool ss_respiration_is_recent(const ss_respiration_t *self, bool has_one, int64_t one256, int64_t now256);
static void ss_respiration_add_size(ss_respiration_t *self, int64_t ticks256, int32_t amplitude_codes);
static bool ss_respiration_add_interval(ss_respiration_t *self, int64_t before256, int64_t ticks256);
static bool ss_respiration_decide(ss_respiration_t *self, int64_t now256);
static ss_breath_spectrum_t ss_respiration_look(const ss_respiration_t *self, const ss_breath_series_t *series, int64_t now256);
static int32_t ss_respiration_agreeing(const ss_breath_spectrum_t *one, const ss_breath_spectrum_t *first,
    const ss_breath_spectrum_t *second, const ss_breath_spectrum_t *third, int32_t *rate_milli);
static void ss_respiration_add_if_near(const ss_breath_spectrum_t *one, const ss_breath_spectrum_t *other, int64_t *weighted, int32_t *sum,
    int32_t *count);

static inline int64_t ss_respiration_step256(const ss_respiration_t *self)
{
    return self->common.ticks_per_second * INT64_C(128);
}

void ss_respiration_start(ss_respiration_t *self, ss_common_clock_t clock)
{
    *self = (ss_respiration_t){ 0 };
    self->common = clock;
    ss_beat_clock_start(&self->clock, clock);
}

bool ss_respiration_add_beat(ss_respiration_t *self, int64_t ticks256, bool starts_run, int32_t amplitude_codes)
{
    bool is_interval = self->has_beat && !starts_run;
    int64_t before256 = self->beat256;
    self->beat256 = ticks256;
    self->has_beat = true;
    if (!ss_respiration_is_recent(self, self->has_pulse, self->pulse256, ticks256)) {
        ss_respiration_add_size(self, ticks256, ss_sat_abs32(amplitude_codes));
    }

    return is_interval && ss_respiration_add_interval(self, before256, ticks256);
}

bool ss_respiration_add_pulse(ss_respiration_t *self, int64_t ticks256, bool starts_run, int32_t amplitude_codes, int32_t level_codes)
{
    bool is_interval = self->has_pulse && !starts_run;
    int64_t before256 = self->pulse256;
    self->pulse256 = ticks256;
    self->has_pulse = true;
    ss_respiration_add_size(self, ticks256, amplitude_codes);
    (void)ss_breath_series_add(&self->levels, ticks256, ss_respiration_step256(self), level_codes, 2 * ss_breath_series_mean(&self->sizes));
    return is_interval && !ss_respiration_is_recent(self, self->has_beat, self->beat256, ticks256)
        && ss_respiration_add_interval(self, before256, ticks256);
}

void ss_respiration_step(ss_respiration_t *self)
{
    ss_breath_series_restart(&self->sizes);
    ss_breath_series_restart(&self->levels);
}

static bool ss_respiration_is_recent(const ss_respiration_t *self, bool has_one, int64_t one256, int64_t now256)
{
    return has_one && ((now256 - one256) <= (self->common.ticks_per_second * INT64_C(256) * (int64_t)SS_RESPIRATION_LONGEST_S));
}

static void ss_respiration_add_size(ss_respiration_t *self, int64_t ticks256, int32_t amplitude_codes)
{
    (void)ss_breath_series_add(&self->sizes, ticks256, ss_respiration_step256(self), amplitude_codes, ss_breath_series_mean(&self->sizes));
}

static bool ss_respiration_add_interval(ss_respiration_t *self, int64_t before256, int64_t ticks256)
{
    int32_t interval = ss_beat_clock_steps(&self->clock, ss_beat_clock_span(&self->clock, before256, ticks256),
        SS_RESPIRATION_INTERVALS_PER_SECOND);
    int32_t made = ss_breath_series_add(&self->intervals, ticks256, ss_respiration_step256(self), interval,
        ss_shift_round(ss_breath_series_mean(&self->intervals), 1));
    /* Where rows break off again and again, values are made without end and never judged: the count stops. */
    self->made = (uint8_t)(((self->made + made) < 255) ? (self->made + made) : 255);
    if ((self->made < SS_RESPIRATION_STEPS_PER_READING) || !ss_breath_series_is_full(&self->intervals)) {
        return false;
    }

    self->made = 0;
    return ss_respiration_decide(self, ticks256);
}

static bool ss_respiration_decide(ss_respiration_t *self, int64_t now256)
{
    /* 7/16 of the heart rate: 60 × 4096 × 7 / (16 × interval). */
    int32_t highest_milli = ss_long_division_rounded((uint64_t)(26250 * SS_RESPIRATION_INTERVALS_PER_SECOND),
        (uint32_t)((ss_breath_series_mean(&self->intervals) < 1) ? 1 : ss_breath_series_mean(&self->intervals)));
    ss_breath_spectrum_t first = ss_respiration_look(self, &self->intervals, now256);
    ss_breath_spectrum_t second = ss_respiration_look(self, &self->sizes, now256);
    ss_breath_spectrum_t third = ss_respiration_look(self, &self->levels, now256);

    if ((first.rate_milli > highest_milli) || (second.rate_milli > highest_milli) || (third.rate_milli > highest_milli)) {
        return false;
    }

    /* The rate that most clear power agrees with; the others count if they are near it. */
    int32_t rate_first = 0;
    int32_t sum_first = ss_respiration_agreeing(&first, &first, &second, &third, &rate_first);
    int32_t rate_second = 0;
    int32_t sum_second = ss_respiration_agreeing(&second, &first, &second, &third, &rate_second);
    int32_t rate_third = 0;
    int32_t sum_third = ss_respiration_agreeing(&third, &first, &second, &third, &rate_third);
    int32_t sum = (sum_first >= sum_second) ? sum_first : sum_second;
    int32_t rate = (sum_first >= sum_second) ? rate_first : rate_second;
    rate = (sum_third > sum) ? rate_third : rate;
    sum = (sum_third > sum) ? sum_third : sum;
    if (sum == 0) {
        return false;
    }

    /* Three clear series that agree are worth 255, two about two thirds; a clear one that does not agree takes its share off again. */
    int32_t against = first.clarity + second.clarity + third.clarity - sum;
    int32_t quality = ss_long_division_rounded((uint64_t)(uint32_t)((sum > against) ? (sum - against) : 1), UINT32_C(3));
    self->quality = (uint8_t)((quality < 1) ? 1 : quality);
    self->rate_milli = rate;
    self->end256 = now256;
    return true;
}

static ss_breath_spectrum_t ss_respiration_look(const ss_respiration_t *self, const ss_breath_series_t *series, int64_t now256)
{
    ss_breath_spectrum_t none = (ss_breath_spectrum_t){ 0 };
    if (!ss_breath_series_is_full(series) || !ss_respiration_is_recent(self, true, ss_breath_series_next256(series), now256)) {
        return none;
    }

    ss_breath_spectrum_t found = ss_breath_spectrum_of(series);
    return (found.clarity >= SS_RESPIRATION_LEAST_CLARITY) ? found : none;
}

/* Clarity of all that agree with one, and their mean rate weighted by it; 0 when nothing does. */
static int32_t ss_respiration_agreeing(const ss_breath_spectrum_t *one, const ss_breath_spectrum_t *first,
    const ss_breath_spectrum_t *second, const ss_breath_spectrum_t *third, int32_t *rate_milli)
{
    int64_t weighted = INT64_C(0);
    int32_t sum = 0;
    int32_t count = 0;
    (*rate_milli) = 0;
    ss_respiration_add_if_near(one, first, &weighted, &sum, &count);
    ss_respiration_add_if_near(one, second, &weighted, &sum, &count);
    ss_respiration_add_if_near(one, third, &weighted, &sum, &count);
    if ((count < 2) || ((count == 2) && (sum < SS_RESPIRATION_LEAST_OF_TWO))) {
        return 0;
    }

    (*rate_milli) = ss_long_division_rounded((uint64_t)weighted, (uint32_t)sum);
    return sum;
}

static void ss_respiration_add_if_near(const ss_breath_spectrum_t *one, const ss_breath_spectrum_t *other, int64_t *weighted, int32_t *sum,
    int32_t *count)
{
    if ((one->clarity > 0) && (other->clarity > 0) && (ss_sat_abs32(one->rate_milli - other->rate_milli) <= SS_RESPIRATION_NEAR_MILLI)) {
        (*weighted) += (int64_t)other->rate_milli * (int64_t)other->clarity;
        (*sum) += other->clarity;
        (*count)++;
    }
}
