/* Generated from SensorSim.Detection/Beats/BeatJudge.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_JUDGE_H
#define SS_BEATS_BEAT_JUDGE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_candidate.h"
#include "beats/beat_doubt.h"
#include "beats/beat_memory.h"
#include "beats/beat_rhythm.h"

#define SS_BEAT_JUDGE_LOOKED_BACK 64

/*
 * Sixth stage, once per hump: beat or not, by height, shape, and what came before and after.
 * Input: candidates. Product: none. Accumulator: 32 bits, places 64. Worst case: none. Output: beats in the order of their R peaks, at most
 * two wait to be told.
 */
struct ss_beat_judge {
    ss_beat_memory_t memory;
    ss_beat_doubt_t doubt;
    ss_beat_rhythm_t rhythm;
    ss_beat_candidate_t pending;
    ss_beat_candidate_t missed;
    ss_beat_candidate_t first;
    ss_beat_candidate_t second;
    bool is_pending;
    bool is_pending_like;
    bool is_missed;
    bool has_last;
    bool has_bridged;
    int32_t missed_score;
    int32_t ready;
    int32_t last_slope;
    int32_t last_height;
    int32_t last_spread;
    int64_t last256;
    int64_t look_back_at;
};

/* What beats look like. */
static inline const ss_beat_memory_t *ss_beat_judge_memory(const ss_beat_judge_t *self);

/* The stream breaks off: what was held is dropped, what was learned stays. */
void ss_beat_judge_restart(ss_beat_judge_t *self);

/* A gap was bridged: a beat may be lost in it. */
void ss_beat_judge_bridge(ss_beat_judge_t *self);

/* Levels were learned anew: sizes may be others. */
void ss_beat_judge_forget(ss_beat_judge_t *self);

/*
 * Hands out the next beat.
 * beat: The beat.
 * Returns: Whether there is one.
 */
bool ss_beat_judge_try_take(ss_beat_judge_t *self, ss_beat_candidate_t *beat);

/*
 * Judges a candidate.
 * w: Lengths.
 * levels: Heights of beats and noise.
 * c: The candidate.
 */
void ss_beat_judge_add(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, const ss_beat_candidate_t *c);

/*
 * Time passes: what has waited long enough is a beat; when a beat is overdue, the best of what was left out is.
 * w: Lengths.
 * levels: Heights.
 * now: Newest working sample.
 * Returns: Whether a beat is ready.
 */
bool ss_beat_judge_pass(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels, int64_t now);

/*
 * What waits is a beat: its time is over, or the end has come.
 * w: Lengths.
 * levels: Heights.
 */
void ss_beat_judge_close(ss_beat_judge_t *self, const ss_beat_windows_t *w, ss_beat_levels_t *levels);

static inline const ss_beat_memory_t *ss_beat_judge_memory(const ss_beat_judge_t *self)
{
    return &self->memory;
}

#endif
