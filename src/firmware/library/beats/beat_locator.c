/* Generated from SensorSim.Detection/Beats/BeatLocator.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_locator.h"
#include "beats/beat_windows.h"
#include "fixed_point/parabola.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"

static void ss_beat_locator_measure(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int64_t middle,
    int32_t newest, int32_t steepest, int32_t from, int32_t to);
static int32_t ss_beat_locator_steepest(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t origin,
    int32_t from, int32_t until);
static int32_t ss_beat_locator_quiet_limit(const ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg,
    int32_t origin);
static int32_t ss_beat_locator_edge(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t origin, int32_t steepest, int32_t step,
    int32_t limit, int32_t newest);
static int32_t ss_beat_locator_level(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t origin, int32_t begin);
static int32_t ss_beat_locator_slope_at(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at);
static int32_t ss_beat_locator_smooth(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at);

void ss_beat_locator_locate(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int64_t middle, int64_t last)
{
    int32_t newest = (int32_t)(last - middle) - w->slope_arm - w->peak_arm;
    int32_t steepest = ss_beat_locator_steepest(self, w, ecg, (int32_t)(middle & (int64_t)SS_BEAT_LOCATOR_MASK), -w->steep_reach,
        (w->steep_reach < newest) ? w->steep_reach : newest);
    ss_beat_locator_measure(self, w, ecg, middle, newest, steepest, -w->qrs_reach, w->qrs_reach);
}

void ss_beat_locator_locate_near(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int64_t near_, int64_t last)
{
    int32_t newest = (int32_t)(last - near_) - w->slope_arm - w->peak_arm;
    int32_t steepest = ss_beat_locator_steepest(self, w, ecg, (int32_t)(near_ & (int64_t)SS_BEAT_LOCATOR_MASK), -w->quiet,
        (w->quiet < newest) ? w->quiet : newest);
    ss_beat_locator_measure(self, w, ecg, near_, newest, steepest, -w->near_reach, w->near_reach);
}

static void ss_beat_locator_measure(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int64_t middle,
    int32_t newest, int32_t steepest, int32_t from, int32_t to)
{
    /* Everything is relative to the middle from here on, so 32 bits do. */
    int32_t origin = (int32_t)(middle & (int64_t)SS_BEAT_LOCATOR_MASK);
    int32_t limit = ss_beat_locator_quiet_limit(self, w, ecg, origin);
    int32_t begin = ss_beat_locator_edge(w, ecg, origin, steepest, -1, limit, newest);
    int32_t end = ss_beat_locator_edge(w, ecg, origin, steepest, 1, limit, newest);
    int32_t level = ss_beat_locator_level(w, ecg, origin, begin);

    int32_t best = (begin > from) ? begin : from;
    int32_t largest = -1;
    for (int32_t i = best; (i <= end) && (i <= to); i++) {
        int32_t deviation = ss_sat_abs32(ss_beat_locator_smooth(w, ecg, origin + i) - (level * 4));
        if (deviation > largest) {
            largest = deviation;
            best = i;
        }
    }

    int32_t here = ss_beat_locator_smooth(w, ecg, origin + best);
    int32_t arm = w->peak_arm;
    int32_t offset = ss_parabola_vertex256(ss_beat_locator_smooth(w, ecg, origin + best - arm), here,
        ss_beat_locator_smooth(w, ecg, origin + best + arm));
    self->deviation = ss_shift_round(here - (level * 4), 2);
    self->position256 = ((middle + (int64_t)best) * INT64_C(256)) + (int64_t)(offset * arm);
}

static int32_t ss_beat_locator_steepest(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t origin,
    int32_t from, int32_t until)
{
    int32_t at = 0;
    int32_t slope = -1;
    for (int32_t i = from; i <= until; i++) {
        int32_t here = ss_beat_locator_slope_at(w, ecg, origin + i);
        if (here > slope) {
            slope = here;
            at = i;
        }
    }

    self->slope = slope;
    return at;
}

/* Slope below which the complex is over: an eighth of the steepest, in noise twice the mean slope before the complex, at most three eighths. */
static int32_t ss_beat_locator_quiet_limit(const ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg,
    int32_t origin)
{
    int32_t stride = ss_shift_right32(w->qrs_reach + 15, 4);
    int32_t sum = 0;
    for (int32_t i = 0; i < 16; i++) {
        sum += ss_shift_floor(ss_beat_locator_slope_at(w, ecg, origin - w->qrs_reach - (i * stride)), 3);
    }

    int32_t eighth = ss_shift_floor(self->slope, 3);
    return (sum < eighth) ? eighth : ((sum < (3 * eighth)) ? sum : (3 * eighth));
}

/* Walks outward until the slope has stayed small for the quiet time; gives the last place that was not small. */
static int32_t ss_beat_locator_edge(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t origin, int32_t steepest, int32_t step,
    int32_t limit, int32_t newest)
{
    int32_t edge = steepest;
    int32_t at = steepest;
    int32_t left = w->qrs_reach - (at * step);
    for (; (left > 0) && ((at + step) <= newest); left--) {
        at += step;
        if (ss_beat_locator_slope_at(w, ecg, origin + at) > limit) {
            edge = at;
        }
        else if (((at - edge) * step) >= w->quiet) {
            break;
        }
    }

    return edge;
}

/* Mean of four points spread over the quiet time before the complex. */
static int32_t ss_beat_locator_level(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t origin, int32_t begin)
{
    int32_t at = origin + begin - w->slope_arm;
    int32_t sum = 0;
    for (int32_t i = 0; i < 4; i++) {
        sum += ecg->at[(at - ss_shift_right32(i * w->quiet, 2)) & SS_BEAT_LOCATOR_MASK];
    }

    return ss_shift_round(sum, 2);
}

static int32_t ss_beat_locator_slope_at(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at)
{
    return ss_sat_abs32(ecg->at[(at + w->slope_arm) & SS_BEAT_LOCATOR_MASK] - ecg->at[(at - w->slope_arm) & SS_BEAT_LOCATOR_MASK]);
}

/* Four times the signal, smoothed by 1-2-1 over half peak arms. */
static int32_t ss_beat_locator_smooth(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at)
{
    int32_t arm = ss_shift_right32(w->peak_arm + 1, 1);
    return ecg->at[(at - arm) & SS_BEAT_LOCATOR_MASK] + (2 * ecg->at[at & SS_BEAT_LOCATOR_MASK])
        + ecg->at[(at + arm) & SS_BEAT_LOCATOR_MASK];
}
