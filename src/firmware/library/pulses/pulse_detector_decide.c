/* Generated from SensorSim.Detection/Pulses/PulseDetector.Decide.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/sample_position.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/curvature_foot.h"
#include "pulses/foot_locator.h"
#include "pulses/light_input.h"
#include "pulses/pulse_detector.h"
#include "pulses/pulse_event.h"
#include "pulses/pulse_learning.h"
#include "pulses/pulse_levels.h"
#include "pulses/pulse_pace.h"
#include "pulses/pulse_rise.h"
#include "pulses/pulse_windows.h"
#include "pulses/sample_marks.h"
#include "pulses/upstroke_finder.h"

static bool ss_pulse_detector_is_refused(ss_pulse_detector_t *self, int64_t middle);
static bool ss_pulse_detector_is_made_up(const ss_pulse_detector_t *self, int64_t middle, int32_t choice);
static bool ss_pulse_detector_has_marks(const ss_pulse_detector_t *self, int64_t from, int32_t count);
static void ss_pulse_detector_tell(ss_pulse_detector_t *self, int64_t middle, int32_t choice);
static int64_t ss_pulse_detector_raw_index(const ss_pulse_detector_t *self, int64_t working);
static ss_sample_position_t ss_pulse_detector_place(const ss_pulse_detector_t *self, int64_t position256);
static int32_t ss_pulse_detector_per_sample(const ss_pulse_detector_t *self, int32_t sum);

bool ss_pulse_detector_decide(ss_pulse_detector_t *self)
{
    int64_t middle = self->now - INT64_C(1) - (int64_t)self->windows.watch_arm - (int64_t)self->upstroke.since_steepest;
    int32_t since = self->pace.since - self->windows.watch_arm - self->upstroke.since_steepest;
    if (ss_pulse_levels_is_after_refused(&self->levels, self->upstroke.steepest)
        && ((ss_pulse_detector_raw_index(self, middle) - self->refused_at) < (int64_t)(self->windows.early * self->windows.decimation))) {
        return false;
    }

    /* Where samples are missing there may have been a pulse: what follows may be its diastolic wave. */
    bool is_early = (since < self->windows.early) || !self->pace.has_pulse
        || ss_pulse_detector_has_marks(self, middle - (int64_t)self->windows.early, self->windows.early);
    if (is_early && self->pace.has_pulse && !ss_pulse_levels_is_strong(&self->levels, self->upstroke.steepest)) {
        ss_pulse_levels_add_ripple(&self->levels, self->upstroke.steepest);
    }

    if (is_early && (self->upstroke.steepest <= self->levels.early)) {
        return false;
    }

    if (self->pace.has_pulse && (since < self->windows.refractory)) {
        return false;
    }

    bool is_too_steep = self->upstroke.steepest > self->levels.limit;
    if (is_too_steep && ss_pulse_detector_is_refused(self, middle)) {
        return false;
    }

    /* The minimum is not sought before the last pulse; nor beyond a step or the start of the run, and then not at that very edge. */
    int32_t reach = ss_pulse_windows_reach_for(&self->windows, self->rise.usual16);
    reach = (self->pace.has_pulse && (since < reach)) ? since : reach;
    bool is_cut = (middle - self->clear_from) < (int64_t)reach;
    reach = is_cut ? (int32_t)(middle - self->clear_from) : reach;
    int32_t choice = ss_pulse_windows_fit_for(&self->windows, self->rise.usual16);
    if ((middle <= self->jump_at) || (reach < (2 * ss_pulse_windows_arm(&self->windows, choice)))
        || !ss_foot_locator_locate(&self->locator, &self->windows, &self->filling, (int32_t)(middle & (int64_t)SS_PULSE_DETECTOR_MASK),
        choice, reach, is_cut) || ss_pulse_detector_is_made_up(self, middle, choice)) {
        ss_pulse_pace_lose(&self->pace);
        return false;
    }

    int32_t height = self->filling.at[(int32_t)(self->now - INT64_C(1) - (int64_t)self->windows.watch_arm) & SS_PULSE_DETECTOR_MASK]
        - self->locator.minimum;
    if (!ss_pulse_rise_is_of_pulse(&self->rise, ss_pulse_rise_of(height, self->locator.slope, self->locator.scale_shift), is_too_steep,
        ss_pulse_levels_is_pressing(&self->levels))) {
        self->clear_from = is_too_steep ? (middle + (int64_t)self->windows.fit_arm) : self->clear_from;
        return false;
    }

    if (is_too_steep) {
        ss_pulse_levels_believe(&self->levels);
    }

    ss_pulse_detector_tell(self, middle, choice);
    ss_pulse_pace_add(&self->pace, since, (int32_t)(self->now - middle), self->windows.first_interval);
    ss_pulse_levels_add(&self->levels, self->upstroke.steepest);
    ss_pulse_learning_restart(&self->learning, self->windows.afterwards);
    return true;
}

/* An upstroke is too steep; if it is a step, no minimum is sought before its end. */
static bool ss_pulse_detector_is_refused(ss_pulse_detector_t *self, int64_t middle)
{
    int64_t at = ss_pulse_detector_raw_index(self, middle);
    int64_t apart = at - self->refused_at;
    self->refused_at = at;
    if (ss_pulse_levels_refuse(&self->levels, self->upstroke.steepest,
        apart <= (int64_t)(self->windows.refused_apart * self->windows.decimation))) {
        return false;
    }

    self->clear_from = middle + (int64_t)self->windows.fit_arm;
    return true;
}

/* Whether the sensor did not give the upstroke: from 20 ms before the foot to where the fit at the steepest point ends. */
static bool ss_pulse_detector_is_made_up(const ss_pulse_detector_t *self, int64_t middle, int32_t choice)
{
    int32_t from = ss_shift_floor(self->locator.foot256, 8) - self->windows.fit_arm2;
    int32_t count = ss_shift_floor(self->locator.steepest256, 8) + ss_pulse_windows_arm(&self->windows, choice) + 1 - from;
    return ss_pulse_detector_has_marks(self, middle + (int64_t)from, count);
}

static bool ss_pulse_detector_has_marks(const ss_pulse_detector_t *self, int64_t from, int32_t count)
{
    return ss_sample_marks_is_active(&self->marks)
        && (ss_sample_marks_count_clear(&self->marks, (int32_t)from & SS_PULSE_DETECTOR_MASK, count) < count);
}

static void ss_pulse_detector_tell(ss_pulse_detector_t *self, int64_t middle, int32_t choice)
{
    /* The line's slope passes zero between the last two watched samples: the systolic peak. */
    int64_t systolic256 = ((self->now - INT64_C(2) - (int64_t)self->windows.watch_arm) * INT64_C(256))
        + (int64_t)ss_upstroke_finder_zero_crossing256(&self->upstroke);
    int32_t fullest = ss_foot_locator_fullest256(&self->locator, &self->filling, (int32_t)(middle & (int64_t)SS_PULSE_DETECTOR_MASK),
        (int32_t)(ss_shift_right64(systolic256 + INT64_C(128), 8) - middle), choice, self->windows.watch_arm);
    systolic256 = (fullest == INT32_MIN) ? systolic256 : ((middle * INT64_C(256)) + (int64_t)fullest);
    int32_t top = self->filling.at[(int32_t)ss_shift_right64(systolic256 + INT64_C(128), 8) & SS_PULSE_DETECTOR_MASK];
    int32_t amplitude = top - self->locator.minimum;

    int32_t steepest = ss_shift_round(self->locator.steepest256, 8);
    int32_t curved = ss_curvature_foot_find(&self->filling, (int32_t)(middle + (int64_t)steepest) & SS_PULSE_DETECTOR_MASK,
        self->locator.minimum_back + steepest + self->windows.fit_arm, ss_pulse_windows_arm(&self->windows, choice),
        self->locator.scale_shift);
    ss_sample_position_t second = (curved == SS_CURVATURE_FOOT_NONE) ? (ss_sample_position_t){ 0 }
        : ss_pulse_detector_place(self, ((middle + (int64_t)steepest) * INT64_C(256)) + (int64_t)curved);

    self->event = ss_pulse_event_make(ss_pulse_detector_place(self, (middle * INT64_C(256)) + (int64_t)self->locator.foot256),
        ss_pulse_detector_place(self, (middle * INT64_C(256)) + (int64_t)self->locator.steepest256),
        ss_pulse_detector_place(self, systolic256), ss_pulse_detector_per_sample(self, amplitude),
        (uint8_t)((self->upstroke.steepest >= ss_shift_right32(self->levels.signal, 1)) ? 255 : 128), ss_pulse_detector_next_index(self)
        - INT64_C(1), second, ss_light_input_light_at(&self->input, ss_pulse_detector_per_sample(self, self->locator.minimum)),
        ss_pulse_pace_is_start(&self->pace));
    ss_pulse_rise_add(&self->rise, ss_pulse_rise_of(amplitude, self->locator.short_slope, self->locator.scale_shift));
}

static int64_t ss_pulse_detector_raw_index(const ss_pulse_detector_t *self, int64_t working)
{
    return self->base + (working * (int64_t)self->windows.decimation);
}

static ss_sample_position_t ss_pulse_detector_place(const ss_pulse_detector_t *self, int64_t position256)
{
    return ss_sample_position_from256((self->base * INT64_C(256)) + (position256 * (int64_t)self->windows.decimation)
        + (int64_t)((self->windows.decimation - 1) * 128));
}

/* Mean over the samples that were added up; once per beat. */
static int32_t ss_pulse_detector_per_sample(const ss_pulse_detector_t *self, int32_t sum)
{
    return sum / self->windows.decimation;
}
