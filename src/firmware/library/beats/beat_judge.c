/* Generated from SensorSim.Detection/Beats/BeatJudge.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_candidate.h"
#include "beats/beat_doubt.h"
#include "beats/beat_judge.h"
#include "beats/beat_levels.h"
#include "beats/beat_memory.h"
#include "beats/beat_rhythm.h"
#include "beats/beat_template.h"
#include "beats/beat_windows.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"

static void ss_beat_judge_look_back(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels);
static void ss_beat_judge_accept_missed(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels);
static bool ss_beat_judge_is_trusted_kin(const ss_beat_judge_t *self, const ss_beat_candidate_t *c);
static int32_t ss_beat_judge_since(const ss_beat_candidate_t *c, int64_t place256);
static bool ss_beat_judge_is_afterwave_3(const ss_beat_judge_t *self, const ss_beat_windows_t *w, const ss_beat_candidate_t *c,
    bool is_strange);
static bool ss_beat_judge_is_afterwave_5(const ss_beat_candidate_t *c, int32_t slope, int32_t height, int32_t spread, bool is_strange);
static void ss_beat_judge_settle(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, const ss_beat_candidate_t *c);
static void ss_beat_judge_hold(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, const ss_beat_candidate_t *c,
    bool is_like);
static int32_t ss_beat_judge_near_of(const ss_beat_judge_t *self, const ss_beat_windows_t *w);
static void ss_beat_judge_remember(ss_beat_judge_t *self, const ss_beat_levels_t *levels, const ss_beat_candidate_t *c);
static int32_t ss_beat_judge_expected(const ss_beat_judge_t *self, const ss_beat_candidate_t *c);
static void ss_beat_judge_accept(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels,
    const ss_beat_candidate_t *candidate, bool is_known);
static void ss_beat_judge_weigh(ss_beat_judge_t *self, const ss_beat_candidate_t *c, bool is_known);

void ss_beat_judge_restart(ss_beat_judge_t *self)
{
    self->is_pending = false;
    self->is_missed = false;
    self->has_last = false;
    self->ready = 0;
    ss_beat_doubt_restart(&self->doubt);
    self->has_bridged = false;
    self->look_back_at = INT64_MAX;
}

void ss_beat_judge_bridge(ss_beat_judge_t *self)
{
    self->has_bridged = true;
}

void ss_beat_judge_forget(ss_beat_judge_t *self)
{
    ss_beat_memory_forget(&self->memory);
    ss_beat_doubt_forget(&self->doubt);
    self->is_missed = false;
}

bool ss_beat_judge_try_take(ss_beat_judge_t *self, ss_beat_candidate_t *beat)
{
    (*beat) = self->first;
    if (self->ready == 0) {
        return false;
    }

    self->first = self->second;
    self->ready--;
    return true;
}

void ss_beat_judge_add(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, const ss_beat_candidate_t *c)
{
    bool is_learning = ss_beat_memory_is_learning(&self->memory);
    bool is_like = !is_learning && ss_beat_memory_is_like(&self->memory, c);
    bool is_known = is_learning ? (c->height > levels->threshold)
        : (is_like || ((c->height > levels->threshold) && ss_beat_judge_is_trusted_kin(self, c)));
    if (self->has_last && (ss_beat_judge_since(c, self->last256) < w->refractory)) {
        ss_beat_levels_add_noise(levels, c->height);
        return;
    }

    if (is_known && !is_learning && ss_beat_doubt_is_high(&self->doubt) && !ss_beat_judge_is_trusted_kin(self, c)) {
        bool is_early = self->has_last && (self->rhythm.count == 8)
            && (ss_beat_judge_since(c, self->last256) < (self->rhythm.median - ss_shift_right32(self->rhythm.median, 3)));
        if (is_early && !ss_beat_memory_is_sure(&self->memory, c)) {
            ss_beat_doubt_add_dropped(&self->doubt);
            ss_beat_judge_remember(self, levels, c);
            return;
        }

        if (is_early || !ss_beat_memory_is_sure(&self->memory, c)) {
            ss_beat_judge_hold(self, w, levels, c, true);
            return;
        }
    }

    if (is_known && !ss_beat_judge_is_afterwave_3(self, w, c, !is_like && !is_learning)) {
        ss_beat_judge_settle(self, w, levels, c);
        ss_beat_judge_accept(self, w, levels, c, true);
        return;
    }

    if (ss_beat_judge_is_afterwave_3(self, w, c, !is_known)) {
        ss_beat_levels_add_noise(levels, c->height);
        return;
    }

    if ((c->height > levels->threshold) && !ss_beat_doubt_is_high(&self->doubt)) {
        ss_beat_judge_hold(self, w, levels, c, false);
        return;
    }

    if (c->height > levels->threshold) {
        ss_beat_doubt_add_dropped(&self->doubt);
    }
    else {
        ss_beat_doubt_add_low(&self->doubt);
    }

    ss_beat_levels_add_noise(levels, (ss_shift_right32(c->height, 1) > levels->half_signal) ? levels->half_signal : c->height);
    ss_beat_judge_remember(self, levels, c);
}

bool ss_beat_judge_pass(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, int64_t now)
{
    if (self->is_pending && ((now - ss_shift_right64(self->pending.position256, 8)) >= (int64_t)w->wait)) {
        ss_beat_judge_close(self, w, levels);
    }

    if ((now >= self->look_back_at) && !self->is_pending) {
        ss_beat_judge_look_back(self, w, levels);
    }

    return self->ready > 0;
}

void ss_beat_judge_close(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels)
{
    if (self->is_pending) {
        self->is_pending = false;
        ss_beat_judge_accept(self, w, levels, &self->pending, self->is_pending_like);
    }
}

static void ss_beat_judge_look_back(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels)
{
    self->look_back_at += (int64_t)ss_shift_right32(self->rhythm.mean, 1);
    if (self->is_missed && (self->missed.height > levels->look_back_threshold)) {
        ss_beat_judge_accept_missed(self, w, levels);
    }
}

static void ss_beat_judge_accept_missed(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels)
{
    self->is_missed = false;
    self->missed.quality = SS_BEAT_JUDGE_LOOKED_BACK;
    ss_beat_judge_accept(self, w, levels, &self->missed, ss_beat_memory_is_like(&self->memory, &self->missed));
}

static bool ss_beat_judge_is_trusted_kin(const ss_beat_judge_t *self, const ss_beat_candidate_t *c)
{
    return ss_beat_doubt_is_kin_trusted(&self->doubt) && ss_beat_memory_is_kin(&self->memory, c);
}

static int32_t ss_beat_judge_since(const ss_beat_candidate_t *c, int64_t place256)
{
    return (int32_t)ss_shift_right64(c->position256 - place256, 8);
}

static bool ss_beat_judge_is_afterwave_3(const ss_beat_judge_t *self, const ss_beat_windows_t *w, const ss_beat_candidate_t *c,
    bool is_strange)
{
    if (self->is_pending) {
        return (ss_beat_judge_since(c, self->pending.position256) < w->t_wave)
            && ss_beat_judge_is_afterwave_5(c, self->pending.slope, self->pending.height,
            ss_beat_template_spread_of(&self->pending.slopes), is_strange);
    }

    return self->has_last && (ss_beat_judge_since(c, self->last256) < w->t_wave)
        && ss_beat_judge_is_afterwave_5(c, self->last_slope, self->last_height, self->last_spread, is_strange);
}

/* Lower than the beat before and less than half as steep; or lower and much wider, for a plain QRS may be no steeper than its T. */
static bool ss_beat_judge_is_afterwave_5(const ss_beat_candidate_t *c, int32_t slope, int32_t height, int32_t spread, bool is_strange)
{
    return (c->height < (height - (is_strange ? ss_shift_right32(height, 2) : ss_shift_right32(height, 3))))
        && ((c->slope < ss_shift_right32(slope, 1)) || ((ss_shift_right32(c->slope, 1) < slope)
        && (ss_beat_template_spread_of(&c->slopes) > (spread + ss_shift_right32(spread, 1)))));
}

/* A known beat has come: what does that say about the strange one that waits? */
static void ss_beat_judge_settle(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, const ss_beat_candidate_t *c)
{
    if (self->is_pending) {
        self->is_pending = false;
        int32_t apart = ss_beat_judge_since(c, self->pending.position256);
        bool is_on_time = self->has_last && ss_beat_rhythm_is_usual(&self->rhythm, ss_beat_judge_since(c, self->last256));
        if ((apart < ss_beat_judge_near_of(self, w)) || (is_on_time
            && (apart < (ss_shift_right32(self->rhythm.median, 1) - ss_shift_right32(self->rhythm.median, 4))))) {
            ss_beat_doubt_add_dropped(&self->doubt);
        }
        else {
            ss_beat_judge_accept(self, w, levels, &self->pending, self->is_pending_like);
        }
    }
    else if (self->is_missed && self->has_last && ss_beat_rhythm_is_long(&self->rhythm, ss_beat_judge_since(c, self->last256))
        && (ss_beat_judge_since(c, self->missed.position256) > ss_shift_right32(self->rhythm.median, 1))) {
        ss_beat_judge_accept_missed(self, w, levels);
    }
}

static void ss_beat_judge_hold(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, const ss_beat_candidate_t *c,
    bool is_like)
{
    if (self->is_pending) {
        bool is_better = (is_like == self->is_pending_like) ? (is_like ? (c->fit > self->pending.fit) : (c->height > self->pending.height))
            : is_like;
        if (ss_beat_judge_since(c, self->pending.position256) < ((is_like || self->is_pending_like) ? ss_beat_judge_near_of(self, w)
            : w->refractory)) {
            self->pending = is_better ? (*c) : self->pending;
            self->is_pending_like = self->is_pending_like | is_like;
            return;
        }

        ss_beat_judge_accept(self, w, levels, &self->pending, self->is_pending_like);
    }

    self->pending = (*c);
    self->is_pending = true;
    self->is_pending_like = is_like;
}

static int32_t ss_beat_judge_near_of(const ss_beat_judge_t *self, const ss_beat_windows_t *w)
{
    int32_t part = ss_shift_right32(self->rhythm.median, 1) + ss_shift_right32(self->rhythm.median, 3);
    return ((part != 0) && (part < w->near_)) ? part : w->near_;
}

static void ss_beat_judge_remember(ss_beat_judge_t *self, const ss_beat_levels_t *levels, const ss_beat_candidate_t *c)
{
    if (c->height <= levels->look_back_threshold) {
        return;
    }

    if (ss_beat_doubt_is_high(&self->doubt) && self->has_last
        && (ss_beat_judge_since(c, self->last256) < (ss_shift_right32(self->rhythm.median, 1)
        - ss_shift_right32(self->rhythm.median, 3)))) {
        return;
    }

    int32_t height = (ss_shift_right32(c->height, 1) > levels->half_signal) ? levels->half_signal : ss_shift_right32(c->height, 1);
    int32_t score = ss_shift_floor(height, 10) * (64 + ((c->fit > 0) ? c->fit : 0) + ss_beat_judge_expected(self, c));
    if (!self->is_missed || (score > self->missed_score)) {
        self->missed = (*c);
        self->missed_score = score;
        self->is_missed = true;
    }
}

/* How near to where a beat is expected, 0 to 255. */
static int32_t ss_beat_judge_expected(const ss_beat_judge_t *self, const ss_beat_candidate_t *c)
{
    if (!self->has_last || !self->rhythm.is_regular) {
        return 0;
    }

    int32_t off = ss_sat_abs32(ss_beat_judge_since(c, self->last256) - self->rhythm.median);
    int32_t m = self->rhythm.median;
    return (off <= ss_shift_right32(m, 4)) ? 255 : ((off <= ss_shift_right32(m, 3)) ? 160 : ((off <= ss_shift_right32(m, 2)) ? 64 : 0));
}

static void ss_beat_judge_accept(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels,
    const ss_beat_candidate_t *candidate, bool is_known)
{
    ss_beat_candidate_t c = (*candidate);
    if (self->has_last) {
        int32_t rr = ss_beat_judge_since(&c, self->last256);
        c.is_after_loss = self->has_bridged && ss_beat_rhythm_is_long(&self->rhythm, rr);
        if (!c.is_after_loss) {
            ss_beat_rhythm_add(&self->rhythm, rr);
        }
    }

    self->has_bridged = false;

    c.is_wide = ss_beat_memory_spread_of(&self->memory, &c) > w->wide_spread;
    ss_beat_memory_learn(&self->memory, &c, self->doubt.value, ss_beat_doubt_is_kin_trusted(&self->doubt),
        c.quality == SS_BEAT_JUDGE_LOOKED_BACK);
    ss_beat_judge_weigh(self, &c, is_known);
    ss_beat_levels_add_signal(levels, c.height);
    if (self->ready == 0) {
        self->first = c;
        self->ready = 1;
    }
    else {
        self->second = c;
        self->ready = 2;
    }

    self->last256 = c.position256;
    self->last_slope = c.slope;
    self->last_height = c.height;
    self->last_spread = ss_beat_template_spread_of(&c.slopes);
    self->has_last = true;
    self->is_missed = false;
    int32_t mean = self->rhythm.mean;
    self->look_back_at = (mean == 0) ? INT64_MAX : (ss_shift_right64(c.position256, 8) + (int64_t)mean + (int64_t)ss_shift_right32(mean, 1)
        + (int64_t)ss_shift_right32(mean, 3) + (int64_t)w->delay + (int64_t)w->hold);
}

static void ss_beat_judge_weigh(ss_beat_judge_t *self, const ss_beat_candidate_t *c, bool is_known)
{
    if (!is_known) {
        ss_beat_doubt_add_strange(&self->doubt);
    }
    else if (!ss_beat_memory_is_learning(&self->memory) && !ss_beat_memory_is_like(&self->memory, c)) {
        ss_beat_doubt_add_kin(&self->doubt);
    }
    else {
        ss_beat_doubt_weigh(&self->doubt, c->position256, &self->rhythm, ss_beat_memory_is_learning(&self->memory));
    }
}
