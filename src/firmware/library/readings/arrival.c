/* Generated from SensorSim.Detection/Readings/Arrival.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/sample_position.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "readings/arrival.h"
#include "readings/arrival_median.h"
#include "readings/rings.h"

static int64_t ss_arrival_between256(const ss_arrival_t *self, int32_t peak, int32_t foot);
static bool ss_arrival_is_pair(const ss_arrival_t *self, int32_t peak, int32_t foot);
static bool ss_arrival_judge(ss_arrival_t *self, int32_t peak, int32_t foot);

void ss_arrival_start(ss_arrival_t *self, int64_t ticks_per_second, int64_t ticks_per_ecg_sample, int64_t ticks_per_optical_sample,
    int64_t optical_delay256)
{
    *self = (ss_arrival_t){ 0 };
    self->clock = ss_common_clock_make(ticks_per_second);
    self->peak_step = ticks_per_ecg_sample;
    self->foot_step = ticks_per_optical_sample;
    self->delay256 = optical_delay256;
    self->earliest256 = ss_common_clock_ticks256(self->clock, SS_ARRIVAL_EARLIEST_MS);
    self->latest256 = ss_common_clock_ticks256(self->clock, SS_ARRIVAL_LATEST_MS);
    self->newest_peak256 = SS_ARRIVAL_NONE;
    self->newest_foot256 = SS_ARRIVAL_NONE;
    for (int32_t i = 0; i < SS_ARRIVAL_KEPT; i++) {
        self->peaks.at[i] = SS_ARRIVAL_NONE;
        self->feet.at[i] = SS_ARRIVAL_NONE;
    }
}

bool ss_arrival_add_r_peak(ss_arrival_t *self, ss_sample_position_t peak, uint8_t quality)
{
    int32_t slot = self->peak_at;
    self->peak_at = (uint8_t)((slot + 1) & (SS_ARRIVAL_KEPT - 1));
    self->peaks.at[slot] = ss_sample_position_in256(peak);
    self->peak_qualities.at[slot] = quality;
    self->newest_peak256 = ss_sample_position_in256(peak) * self->peak_step;
    self->is_outlier = false;
    for (int32_t i = 0; i < SS_ARRIVAL_KEPT; i++) {
        /* Oldest first, so the first foot in reach is the first after the peak. */
        int32_t foot = (self->foot_at + i) & (SS_ARRIVAL_KEPT - 1);
        if (ss_arrival_is_pair(self, slot, foot)) {
            return ss_arrival_judge(self, slot, foot);
        }
    }

    return false;
}

bool ss_arrival_add_foot(ss_arrival_t *self, ss_sample_position_t foot, uint8_t quality)
{
    int32_t slot = self->foot_at;
    self->foot_at = (uint8_t)((slot + 1) & (SS_ARRIVAL_KEPT - 1));
    self->feet.at[slot] = ss_sample_position_in256(foot);
    self->foot_qualities.at[slot] = quality;
    self->newest_foot256 = (ss_sample_position_in256(foot) * self->foot_step) - self->delay256;
    self->is_outlier = false;
    for (int32_t i = 0; i < SS_ARRIVAL_KEPT; i++) {
        int32_t peak = (self->peak_at + i) & (SS_ARRIVAL_KEPT - 1);
        if (ss_arrival_is_pair(self, peak, slot)) {
            return ss_arrival_judge(self, peak, slot);
        }
    }

    return false;
}

bool ss_arrival_take_unpaired(ss_arrival_t *self, int64_t *ticks256)
{
    /* A foot beyond reach was seen, or beats went on for a second and a half without one (feet are told at most 0.8 s after their R peak). */
    int64_t past = (self->newest_foot256 == SS_ARRIVAL_NONE) ? SS_ARRIVAL_NONE : (self->newest_foot256 - self->latest256);
    int64_t silent = (self->newest_peak256 == SS_ARRIVAL_NONE) ? SS_ARRIVAL_NONE : (self->newest_peak256 - (INT64_C(4) * self->latest256));
    int64_t open = (past > silent) ? past : silent;
    for (int32_t i = 0; i < SS_ARRIVAL_KEPT; i++) {
        int64_t *peak = &self->peaks.at[(self->peak_at + i) & (SS_ARRIVAL_KEPT - 1)];
        (*ticks256) = ((*peak) == SS_ARRIVAL_NONE) ? SS_ARRIVAL_NONE : ((*peak) * self->peak_step);
        if (((*ticks256) != SS_ARRIVAL_NONE) && ((*ticks256) < open)) {
            (*peak) = SS_ARRIVAL_NONE;
            return true;
        }
    }

    (*ticks256) = INT64_C(0);
    return false;
}

static int64_t ss_arrival_between256(const ss_arrival_t *self, int32_t peak, int32_t foot)
{
    return (self->feet.at[foot] * self->foot_step) - self->delay256 - (self->peaks.at[peak] * self->peak_step);
}

static bool ss_arrival_is_pair(const ss_arrival_t *self, int32_t peak, int32_t foot)
{
    if ((self->peaks.at[peak] == SS_ARRIVAL_NONE) || (self->feet.at[foot] == SS_ARRIVAL_NONE)) {
        return false;
    }

    int64_t ticks256 = ss_arrival_between256(self, peak, foot);
    return (ticks256 >= self->earliest256) && (ticks256 <= self->latest256);
}

static bool ss_arrival_judge(ss_arrival_t *self, int32_t peak, int32_t foot)
{
    int32_t time_us = ss_common_clock_microseconds(self->clock, ss_arrival_between256(self, peak, foot));
    int64_t peak_place = self->peaks.at[peak];
    int64_t foot_place = self->feet.at[foot];
    self->peaks.at[peak] = SS_ARRIVAL_NONE;
    self->feet.at[foot] = SS_ARRIVAL_NONE;
    int32_t off = ss_sat_abs32(time_us - ss_arrival_median_value(&self->median, time_us));
    self->is_outlier = off > SS_ARRIVAL_FAR_US;
    if (self->is_outlier) {
        /* Four that agree: it has moved. */
        if (!ss_arrival_median_is_moved(&self->median, time_us, SS_ARRIVAL_FAR_US, SS_ARRIVAL_PATIENCE)) {
            return false;
        }

        self->is_outlier = false;
        ss_arrival_median_begin(&self->median, time_us);
        off = 0;
    }

    ss_arrival_median_add(&self->median, time_us);
    self->time_us = time_us;
    self->peak = peak_place;
    self->foot = foot_place;

    /* The worse of the two; an eighth of the scale less for each 4 ms off, less for unrest, half of it while the median is young. */
    int32_t quality = (self->peak_qualities.at[peak] < self->foot_qualities.at[foot]) ? self->peak_qualities.at[peak]
        : self->foot_qualities.at[foot];
    quality -= ss_shift_floor(off, 7) + ss_arrival_median_unrest(&self->median);
    quality = (ss_arrival_median_count(&self->median) <= SS_ARRIVAL_ENOUGH) ? ss_shift_floor(quality, 1) : quality;
    self->quality = (uint8_t)((quality < 1) ? 1 : quality);
    return true;
}
