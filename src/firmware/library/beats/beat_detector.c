/* Generated from SensorSim.Detection/Beats/BeatDetector.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/band_pass.h"
#include "beats/beat_candidate.h"
#include "beats/beat_detector.h"
#include "beats/beat_event.h"
#include "beats/beat_gaps.h"
#include "beats/beat_judge.h"
#include "beats/beat_learning.h"
#include "beats/beat_levels.h"
#include "beats/beat_memory.h"
#include "beats/beat_windows.h"
#include "beats/beat_words.h"
#include "beats/peak_finder.h"
#include "beats/qrs_energy.h"
#include "beats/spike_filter.h"
#include "common/sample_flags.h"
#include "common/sample_position.h"
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pipeline/tuning.h"

static void ss_beat_detector_begin(ss_beat_detector_t *self, int64_t index);
static bool ss_beat_detector_next_filled(ss_beat_detector_t *self, int32_t code);
static inline bool ss_beat_detector_next(ss_beat_detector_t *self, int32_t code, bool is_flagged);
static inline bool ss_beat_detector_work(ss_beat_detector_t *self, int32_t value);
static void ss_beat_detector_fill(ss_beat_detector_t *self, int32_t code);
static void ss_beat_detector_learn(ss_beat_detector_t *self);
static void ss_beat_detector_decide(ss_beat_detector_t *self);
static int32_t ss_beat_detector_third(int32_t value);
static bool ss_beat_detector_tell(ss_beat_detector_t *self);

bool ss_beat_detector_start_2(ss_beat_detector_t *self, int32_t rate_hz, int32_t codes_per_mv256)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    return ss_beat_detector_start_3(self, rate_hz, codes_per_mv256, &usual_value);
}

bool ss_beat_detector_start_3(ss_beat_detector_t *self, int32_t rate_hz, int32_t codes_per_mv256, const ss_tuning_t *tuning)
{
    if ((rate_hz < SS_BEAT_WINDOWS_MINIMUM_RATE_HZ) || (rate_hz > SS_BEAT_WINDOWS_MAXIMUM_RATE_HZ)) {
        return false;
    }

    *self = (ss_beat_detector_t){ 0 };
    self->windows = ss_beat_windows_for_rate_3(rate_hz, codes_per_mv256, tuning);
    ss_beat_levels_set_percent(&self->levels, tuning->beat_threshold_percent);
    ss_spike_filter_start(&self->spikes, rate_hz, codes_per_mv256);
    for (int32_t i = 0; i < SS_WIDE4_LENGTH; i++) {
        self->spike_at.at[i] = SS_BEAT_DETECTOR_NEVER;
    }

    ss_beat_detector_begin(self, INT64_C(0));
    return true;
}

void ss_beat_detector_restart(ss_beat_detector_t *self, int64_t index)
{
    if (self->is_fresh) {
        ss_beat_detector_begin(self, index);
        return;
    }

    if (index != self->next) {
        ss_beat_gaps_open(&self->gaps, &self->windows, self->next, index);
        self->next = index;
    }
}

int32_t ss_beat_detector_take_2(ss_beat_detector_t *self, ss_view_int32_t codes, bool *found)
{
    return ss_beat_detector_take_3(self, codes, (ss_view_uint16_t){ 0 }, found);
}

int32_t ss_beat_detector_take_3(ss_beat_detector_t *self, ss_view_int32_t codes, ss_view_uint16_t status, bool *found)
{
    (*found) = true;
    for (int32_t i = 0; i < codes.length; i++) {
        if (self->gaps.is_open) {
            ss_beat_gaps_aim(&self->gaps, codes.at[i]);
            int32_t filled = 0;
            while (ss_beat_gaps_try_fill(&self->gaps, &filled)) {
                if (ss_beat_detector_next_filled(self, filled)) {
                    return i;
                }
            }

            if (self->gaps.is_long) {
                ss_beat_detector_begin(self, self->next);
            }
            else {
                ss_beat_judge_bridge(&self->judge);
            }
        }

        bool is_flagged = (status.length != 0) && ((status.at[i] & SS_SAMPLE_FLAGS_PACING_SPIKE) != 0);
        self->gaps.last = codes.at[i];
        self->next++;
        if (ss_beat_detector_next(self, codes.at[i], is_flagged)) {
            return i + 1;
        }
    }

    (*found) = false;
    return codes.length;
}

bool ss_beat_detector_flush(ss_beat_detector_t *self)
{
    /* Half an integration past its top the whole complex has been seen. */
    if (ss_peak_finder_is_holding(&self->peaks) && (self->peaks.age >= ss_shift_right32(self->windows.integration, 1))) {
        ss_beat_detector_decide(self);
        ss_peak_finder_restart(&self->peaks, self->windows.hold);
    }

    ss_beat_judge_close(&self->judge, &self->windows, &self->levels);
    return ss_beat_detector_tell(self);
}

static void ss_beat_detector_begin(ss_beat_detector_t *self, int64_t index)
{
    self->next = index;
    self->base = index;
    self->now = INT64_C(0);
    self->phase = 0;
    self->sum = 0;
    self->is_fresh = true;
    self->has_run_beat = false;
    self->skip = self->spikes.delay;
    ss_beat_gaps_restart(&self->gaps);
    ss_beat_judge_restart(&self->judge);
    ss_peak_finder_restart(&self->peaks, self->windows.hold);
    ss_qrs_energy_restart(&self->energy, &self->windows);
}

static bool ss_beat_detector_next_filled(ss_beat_detector_t *self, int32_t code)
{
    return ss_beat_detector_next(self, code, false);
}

static inline bool ss_beat_detector_next(ss_beat_detector_t *self, int32_t code, bool is_flagged)
{
    if (self->is_fresh) {
        ss_beat_detector_fill(self, code);
    }

    int32_t clean = 0;
    if (ss_spike_filter_next(&self->spikes, code, is_flagged, &clean)) {
        int32_t spike_count_value = self->spike_count;
        self->spike_count++;
        int32_t at = spike_count_value & (SS_WIDE4_LENGTH - 1);
        self->spike_at.at[at] = self->next - INT64_C(1) - (int64_t)self->spikes.age;
    }

    if (self->skip > 0) {
        self->skip--;
        return false;
    }

    self->sum += clean;
    self->phase++;
    int32_t value = self->phase;
    if (value < self->windows.decimation) {
        return false;
    }

    int32_t value_2 = self->sum;
    self->sum = 0;
    self->phase = 0;
    return ss_beat_detector_work(self, value_2);
}

static inline bool ss_beat_detector_work(ss_beat_detector_t *self, int32_t value)
{
    int64_t now = self->now;
    self->ecg.at[(int32_t)now & (SS_WORD256_LENGTH - 1)] = value;
    self->now = now + INT64_C(1);
    self->since_beat += self->windows.decimation;
    int32_t passed = ss_band_pass_next(&self->band_pass, value);
    int32_t energy = ss_qrs_energy_next(&self->energy, passed);
    if (!self->gaps.is_open && ss_beat_learning_next(&self->learning, energy, self->windows.learning_block)) {
        ss_beat_detector_learn(self);
    }

    if (ss_peak_finder_next(&self->peaks, energy)) {
        ss_beat_detector_decide(self);
    }

    return ss_beat_judge_pass(&self->judge, &self->windows, &self->levels, now) && ss_beat_detector_tell(self);
}

static void ss_beat_detector_fill(ss_beat_detector_t *self, int32_t code)
{
    self->is_fresh = false;
    ss_spike_filter_restart(&self->spikes, code);
    int32_t value = code * self->windows.decimation;
    ss_band_pass_restart(&self->band_pass, &self->windows, value);
    for (int32_t i = 0; i < SS_WORD256_LENGTH; i++) {
        self->ecg.at[i] = value;
    }
}

static void ss_beat_detector_learn(ss_beat_detector_t *self)
{
    /* Without a beat for 3 s the heart may have become smaller to see; what is smaller than a twelfth is given 9 s, for it may be a pause. */
    int32_t silence = self->windows.silence * self->windows.decimation;
    self->since_beat = (self->since_beat < SS_BEAT_DETECTOR_LONGEST_SILENCE) ? self->since_beat : SS_BEAT_DETECTOR_LONGEST_SILENCE;
    bool is_silent = (self->since_beat > silence) && ((self->learning.highest_told > (self->levels.half_signal / 6))
        || (self->since_beat > (3 * silence)));
    if ((!ss_beat_levels_is_learned(&self->levels) || is_silent) && ss_beat_learning_has_beats(&self->learning)
        && (self->learning.highest_told >= self->windows.least)) {
        ss_beat_levels_learn(&self->levels, self->learning.highest_told, self->learning.mean);
        ss_beat_judge_forget(&self->judge);
    }
}

/* A hump is complete: what is it? */
static void ss_beat_detector_decide(ss_beat_detector_t *self)
{
    int64_t middle = self->now - INT64_C(1) - (int64_t)self->peaks.age - (int64_t)self->windows.delay;
    if (!ss_beat_levels_is_learned(&self->levels) || (middle < (int64_t)self->windows.edge)) {
        return;
    }

    if (self->peaks.height <= self->levels.look_back_threshold) {
        /* Too low even for an overdue beat: not worth a look. */
        ss_beat_levels_add_noise(&self->levels, self->peaks.height);
        return;
    }

    ss_beat_candidate_t c = (ss_beat_candidate_t){ 0 };
    c.height = self->peaks.height;
    ss_beat_memory_look(ss_beat_judge_memory(&self->judge), &self->windows, &self->ecg, &self->locator, middle, self->now - INT64_C(1), &c);
    if (!ss_beat_gaps_holds(&self->gaps, self->base + (ss_shift_right64(c.position256, 8) * (int64_t)self->windows.decimation))) {
        ss_beat_judge_add(&self->judge, &self->windows, &self->levels, &c);
    }
}

static int32_t ss_beat_detector_third(int32_t value)
{
    int32_t third = ss_long_division_rounded((uint64_t)ss_sat_abs32(value), UINT32_C(3));
    return (value < 0) ? -third : third;
}

static bool ss_beat_detector_tell(ss_beat_detector_t *self)
{
    ss_beat_candidate_t c;
    if (!ss_beat_judge_try_take(&self->judge, &c)) {
        return false;
    }

    int32_t n = self->windows.decimation;
    int64_t place = (c.position256 * (int64_t)n) + (int64_t)((n - 1) * 128) + (self->base * INT64_C(256));
    int32_t deviation = (n == 1) ? c.deviation : ((n == 2) ? ss_shift_round(c.deviation, 1)
        : ((n == 4) ? ss_shift_round(c.deviation, 2) : ss_beat_detector_third(c.deviation)));
    bool is_paced = false;
    for (int32_t i = 0; i < SS_WIDE4_LENGTH; i++) {
        int64_t since = ss_shift_right64(place, 8) - self->spike_at.at[i];
        is_paced = is_paced | ((since >= -INT64_C(1)) && (since <= (int64_t)self->windows.paced_reach));
    }

    int64_t arrived = self->gaps.is_open ? self->next : (self->next - INT64_C(1));
    bool starts_run = !self->has_run_beat || c.is_after_loss;
    self->event = ss_beat_event_make(ss_sample_position_from256(place), deviation, c.quality, starts_run, arrived, c.is_wide, is_paced);
    self->has_run_beat = true;
    self->since_beat = (int32_t)(self->next - INT64_C(1) - ss_shift_right64(place, 8));
    return true;
}
