/* Generated from SensorSim.Detection/Pulses/PulseDetector.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pipeline/tuning.h"
#include "pulses/foot_locator.h"
#include "pulses/light_input.h"
#include "pulses/pulse_detector.h"
#include "pulses/pulse_event.h"
#include "pulses/pulse_learning.h"
#include "pulses/pulse_levels.h"
#include "pulses/pulse_noise.h"
#include "pulses/pulse_pace.h"
#include "pulses/pulse_windows.h"
#include "pulses/sample_marks.h"
#include "pulses/upstroke_finder.h"
#include "pulses/watch_slope.h"

static void ss_pulse_detector_begin_run(ss_pulse_detector_t *self, int64_t index);
static bool ss_pulse_detector_next(ss_pulse_detector_t *self);
static void ss_pulse_detector_take_care(ss_pulse_detector_t *self, int32_t at);
static void ss_pulse_detector_review(ss_pulse_detector_t *self);

bool ss_pulse_detector_start_3(ss_pulse_detector_t *self, int32_t rate_hz, int32_t polarity, int32_t zero_code)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    return ss_pulse_detector_start_4(self, rate_hz, polarity, zero_code, &usual_value);
}

bool ss_pulse_detector_start_4(ss_pulse_detector_t *self, int32_t rate_hz, int32_t polarity, int32_t zero_code, const ss_tuning_t *tuning)
{
    if ((rate_hz < SS_PULSE_WINDOWS_MINIMUM_RATE_HZ) || (rate_hz > SS_PULSE_WINDOWS_MAXIMUM_RATE_HZ)
        || ((polarity != 1) && (polarity != -1))) {
        return false;
    }

    *self = (ss_pulse_detector_t){ 0 };
    self->windows = ss_pulse_windows_for_rate_2(rate_hz, tuning);
    ss_pulse_levels_set_percent(&self->levels, tuning->pulse_threshold_percent);
    self->refused_at = -INT64_C(1099511627776);
    ss_light_input_start(&self->input, &self->windows, polarity, zero_code);
    ss_foot_locator_restart(&self->locator, &self->windows);
    ss_pulse_noise_start(&self->noise, &self->windows);
    ss_pulse_levels_set_noise(&self->levels, 0);
    ss_pulse_detector_begin_run(self, INT64_C(0));
    return true;
}

void ss_pulse_detector_restart(ss_pulse_detector_t *self, int64_t index)
{
    int64_t gap = index - ss_pulse_detector_next_index(self);
    if (self->input.is_fresh || (gap <= INT64_C(0)) || ((gap + (int64_t)self->input.fill_left) > (int64_t)self->windows.bridge)) {
        ss_pulse_detector_begin_run(self, index);
    }
    else {
        ss_light_input_bridge(&self->input, (int32_t)gap);
    }
}

void ss_pulse_detector_step(ss_pulse_detector_t *self, int64_t index)
{
    if (index != ss_pulse_detector_next_index(self)) {
        ss_pulse_detector_restart(self, index);
    }

    ss_light_input_settle(&self->input, self->windows.settling);
}

int32_t ss_pulse_detector_take(ss_pulse_detector_t *self, ss_view_int32_t codes, bool *found)
{
    (*found) = false;
    if (codes.length == 0) {
        return 0;
    }

    while (self->input.fill_left > 0) {
        if (ss_light_input_next_filled(&self->input, codes.at[0]) && ss_pulse_detector_next(self)) {
            ss_pulse_event_t changed = self->event;
            changed.found_at = ss_pulse_detector_next_index(self);
            self->event = changed;
            (*found) = true;
            return 0;
        }
    }

    for (int32_t i = 0; i < codes.length; i++) {
        if (ss_light_input_next(&self->input, codes.at[i]) && ss_pulse_detector_next(self)) {
            (*found) = true;
            return i + 1;
        }
    }

    return codes.length;
}

static void ss_pulse_detector_begin_run(ss_pulse_detector_t *self, int64_t index)
{
    self->base = index;
    self->now = INT64_C(0);
    self->clear_from = INT64_C(0);
    self->jump_at = -INT64_C(1);
    self->marks = (ss_sample_marks_t){ 0 };
    ss_light_input_restart(&self->input);
    ss_pulse_pace_begin_run(&self->pace);
    ss_upstroke_finder_restart(&self->upstroke, self->windows.longest_rise);
}

static bool ss_pulse_detector_next(ss_pulse_detector_t *self)
{
    int32_t at = (int32_t)self->now & SS_PULSE_DETECTOR_MASK;
    if (self->input.needs_care || ss_sample_marks_is_active(&self->marks)) {
        ss_pulse_detector_take_care(self, at);
    }

    int32_t filling = self->input.value;
    int32_t leaving = self->filling.at[(at - (2 * self->windows.watch_arm) - 1) & SS_PULSE_DETECTOR_MASK];
    self->filling.at[at] = filling;
    self->now++;
    ss_pulse_pace_next(&self->pace);
    int32_t slope = ss_watch_slope_next(&self->slope, filling, leaving);
    if (ss_pulse_detector_is_learned(self)) {
        /* Before that nothing passes, and there is no threshold to see. */
    }

    if (ss_pulse_learning_next(&self->learning, slope, self->windows.learning_block, self->levels.limit)) {
        ss_pulse_detector_review(self);
    }

    return ss_upstroke_finder_next(&self->upstroke, slope, self->levels.late) && ss_pulse_detector_decide(self);
}

/* A run begins, or the level has jumped with notice: what is held is moved to the new level. Marks are kept. */
static void ss_pulse_detector_take_care(ss_pulse_detector_t *self, int32_t at)
{
    if (self->input.is_fresh) {
        ss_watch_slope_restart(&self->slope, self->windows.watch_arm, self->input.value);
        for (int32_t i = 0; i < SS_WORD256_LENGTH; i++) {
            self->filling.at[i] = self->input.value;
        }
    }
    else if (self->input.jump != 0) {
        int32_t jump = self->input.jump;
        ss_watch_slope_raise(&self->slope, jump);
        for (int32_t i = 0; i < SS_WORD256_LENGTH; i++) {
            self->filling.at[i] += jump;
        }

        ss_pulse_levels_scale(&self->levels, self->input.ratio256);
        self->jump_at = self->now;
    }

    ss_sample_marks_put(&self->marks, at, ss_light_input_end_care(&self->input));
}

/* Half a second is over: a level is needed, or has not fitted for a while. */
static void ss_pulse_detector_review(ss_pulse_detector_t *self)
{
    ss_pulse_pace_limit(&self->pace);
    if (self->now >= (int64_t)self->windows.learning_block) {
        ss_pulse_noise_estimate(&self->noise, &self->filling, (int32_t)(self->now - INT64_C(1)) & SS_PULSE_DETECTOR_MASK, &self->windows);
        ss_pulse_levels_set_noise(&self->levels, self->noise.level);
    }

    int32_t steepest = self->learning.steepest_told;
    if (ss_shift_floor(steepest, 3) < self->levels.noise) {
        return;
    }

    if (!ss_pulse_detector_is_learned(self)) {
        if (self->learning.filled >= SS_PULSE_LEARNING_BLOCKS) {
            ss_pulse_levels_learn(&self->levels, steepest);
        }
    }
    else if ((ss_pulse_pace_silence(&self->pace) > self->windows.silence)
        && (ss_pulse_pace_silence(&self->pace) > (2 * self->pace.interval))) {
        /* A pause of the heart is no reason to believe in ripples: not below an eighth of what pulses have been, at first. Larger */
        /* pulses would have been refused, and are learned from there. */
        int32_t least = (ss_pulse_pace_silence(&self->pace) > self->windows.long_silence) ? 0 : ss_shift_floor(self->levels.proven, 3);
        steepest = (steepest > least) ? steepest : least;
        if (steepest < self->levels.signal) {
            ss_pulse_levels_learn(&self->levels, steepest);
        }
    }
}
