/* Generated from SensorSim.Detection/Readings/Oxygen.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/pulse_event.h"
#include "readings/beat_window.h"
#include "readings/colour_band.h"
#include "readings/colour_sums.h"
#include "readings/oxygen.h"
#include "readings/oxygen_table.h"
#include "readings/rings.h"

static bool ss_oxygen_is_strong(const ss_pulse_event_t *pulse);
static bool ss_oxygen_is_usual(ss_oxygen_t *self);
static int32_t ss_oxygen_odd_count(const ss_oxygen_t *self);
static bool ss_oxygen_take(ss_oxygen_t *self, int32_t ratio, int64_t ticks256);

bool ss_oxygen_start(ss_oxygen_t *self, int32_t rate_hz, ss_common_clock_t clock, const ss_oxygen_table_t *table)
{
    if ((rate_hz < SS_OXYGEN_MINIMUM_RATE_HZ) || (rate_hz > SS_OXYGEN_MAXIMUM_RATE_HZ) || (ss_oxygen_table_count(table) < 2)) {
        return false;
    }

    *self = (ss_oxygen_t){ 0 };
    self->table = (*table);
    ss_beat_window_start(&self->window, clock);
    /* at start-up */
    self->decimation = (uint8_t)((rate_hz + 12) / SS_OXYGEN_VALUES_PER_SECOND);
    self->is_fresh = true;
    return true;
}

void ss_oxygen_restart(ss_oxygen_t *self)
{
    self->is_fresh = true;
    self->is_whole = false;
    self->phase = 0;
    self->red_sum = 0;
    self->infrared_sum = 0;
}

bool ss_oxygen_pulse(ss_oxygen_t *self, const ss_pulse_event_t *pulse, int64_t ticks256)
{
    bool is_judged = self->is_whole && !pulse->starts_run && (self->sums.count < SS_OXYGEN_MOST_VALUES) && ss_oxygen_is_strong(pulse);
    int32_t ratio = 0;
    bool is_new = is_judged && ss_oxygen_is_usual(self) && ss_colour_sums_try_ratio(&self->sums, &ratio)
        && ss_oxygen_take(self, ratio, ticks256);
    self->shift = (uint8_t)ss_shift_needed(ss_colour_sums_infrared_level(&self->sums), SS_OXYGEN_LEVEL_BITS);
    ss_colour_sums_clear(&self->sums);
    self->is_whole = !self->is_fresh;
    return is_new;
}

void ss_oxygen_work(ss_oxygen_t *self)
{
    if (self->is_fresh) {
        self->is_fresh = false;
        ss_colour_band_restart(&self->red, self->red_sum);
        ss_colour_band_restart(&self->infrared, self->infrared_sum);
        self->sums = (ss_colour_sums_t){ 0 };
    }

    int32_t red = ss_colour_band_next(&self->red, self->red_sum, self->shift);
    int32_t infrared = ss_colour_band_next(&self->infrared, self->infrared_sum, self->shift);
    if (self->sums.count < SS_OXYGEN_MOST_VALUES) {
        ss_colour_sums_add(&self->sums, red, infrared, self->red_sum, self->infrared_sum);
    }

    self->red_sum = 0;
    self->infrared_sum = 0;
    self->phase = 0;
}

/* At least 0.1 %: 2000 × amplitude ≥ 2 × middle of the light. */
static bool ss_oxygen_is_strong(const ss_pulse_event_t *pulse)
{
    return (pulse->level_codes > 0) && ((INT64_C(2000) * (int64_t)pulse->amplitude_codes) >= ((INT64_C(2) * (int64_t)pulse->level_codes)
        - (int64_t)pulse->amplitude_codes));
}

/* Whether the pulse is about as large as those before it; takes down how often it was not. */
static bool ss_oxygen_is_usual(ss_oxygen_t *self)
{
    int32_t size = 16 * ss_colour_sums_quarters(&self->sums, self->shift);
    int32_t off = (self->usual == 0) ? 0 : (size - self->usual);
    self->usual = (int16_t)((self->usual == 0) ? size : (self->usual + ss_shift_round(off, 2)));
    bool is_odd = ss_sat_abs32(off) > (16 * SS_OXYGEN_UNUSUAL);
    self->odd = (uint8_t)((ss_shift_left32(self->odd, 1) | (is_odd ? 1 : 0)) & 255);
    return !is_odd;
}

static int32_t ss_oxygen_odd_count(const ss_oxygen_t *self)
{
    int32_t count = 0;
    for (int32_t i = 0; i < 8; i++) {
        count += ss_shift_right_zero32(self->odd, i) & 1;
    }

    return count;
}

static bool ss_oxygen_take(ss_oxygen_t *self, int32_t ratio, int64_t ticks256)
{
    /* Saturation is slow: a gap does not end the row, 16 s do. */
    self->count = (uint8_t)(ss_beat_window_add(&self->window, ticks256, false) ? self->count : 0);
    self->ratios.at[self->at] = (uint16_t)ratio;
    self->at = (uint8_t)((self->at + 1) & (SS_OXYGEN_MOST - 1));
    self->count = (uint8_t)((self->count < SS_OXYGEN_MOST) ? (self->count + 1) : SS_OXYGEN_MOST);
    if (self->count < SS_OXYGEN_LEAST) {
        return false;
    }

    ss_word8_t sorted = (ss_word8_t){ 0 };
    for (int32_t i = 0; i < self->count; i++) {
        int32_t value = self->ratios.at[(self->at - 1 - i) & (SS_OXYGEN_MOST - 1)];
        int32_t to = i;
        while ((to > 0) && (sorted.at[to - 1] > value)) {
            sorted.at[to] = sorted.at[to - 1];
            to--;
        }

        sorted.at[to] = value;
    }

    int32_t trim = ss_shift_floor(self->count, 2);
    uint32_t sum = UINT32_C(0);
    for (int32_t i = trim; i < (self->count - trim); i++) {
        sum += (uint32_t)sorted.at[i];
    }

    int32_t mean = ss_long_division_rounded((uint64_t)sum, (uint32_t)(self->count - (2 * trim)));
    int32_t percent = ss_oxygen_table_milli_percent(&self->table, mean);
    bool is_beyond = (percent < (SS_OXYGEN_LOWEST - SS_OXYGEN_POINT))
        || (mean < (ss_oxygen_table_lowest_ratio(&self->table) - SS_OXYGEN_BEYOND)) || (mean > ss_oxygen_table_highest_ratio(&self->table));
    self->milli_percent = (percent < SS_OXYGEN_LOWEST) ? SS_OXYGEN_LOWEST : percent;

    /* A point of saturation between the quarters takes 16 off, each odd pulse among the last eight 32; four pulses count half. */
    int32_t spread = sorted.at[self->count - 1 - trim] - sorted.at[trim];
    int32_t quality = 255 - ss_shift_floor(spread * 5, 7) - (SS_OXYGEN_ODD_PENALTY * ss_oxygen_odd_count(self));
    quality = ss_shift_floor(((quality < 8) ? 8 : quality) * self->count, 3);
    self->quality = (uint8_t)((is_beyond && (quality > SS_OXYGEN_LOW_QUALITY)) ? SS_OXYGEN_LOW_QUALITY : quality);
    return true;
}
