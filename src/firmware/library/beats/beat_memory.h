/* Generated from SensorSim.Detection/Beats/BeatMemory.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_MEMORY_H
#define SS_BEATS_BEAT_MEMORY_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_template.h"

/*
 * Likeness is a correlation in 1/256. Clean beats of one kind reach 250 and more, in muscle noise of 0 dB some 210; transients of electrodes
 * seldom pass 150. The limit follows the level of the beats, within these two ends.
 */
#define SS_BEAT_MEMORY_FIT_TWIN 243
#define SS_BEAT_MEMORY_FIT_SURE 230
#define SS_BEAT_MEMORY_FIT_MARGIN 44
#define SS_BEAT_MEMORY_FIT_LOWEST 154
#define SS_BEAT_MEMORY_FIT_HIGHEST 212
#define SS_BEAT_MEMORY_FIT_AT_START 180
#define SS_BEAT_MEMORY_FIT_OTHER 205
#define SS_BEAT_MEMORY_SURE_MARGIN 20
#define SS_BEAT_MEMORY_STRANGE_RUN 6

/*
 * Fifth stage, once per hump: what the usual beats and one other kind look like, and how like them a candidate is.
 * Input: held ECG, middle of a hump. Product: see beat_template. Accumulator: 32 bits; level of the likeness Q12.4. Worst case: see the
 * template. Output: candidates; likeness in 1/256.
 */
struct ss_beat_memory {
    ss_beat_template_t usual;
    ss_beat_template_t other;
    int32_t fit_level;
    int32_t strange_run;
};

/* Whether the usual beats are not known yet. */
static inline bool ss_beat_memory_is_learning(const ss_beat_memory_t *self);

/* Forgets both kinds. */
void ss_beat_memory_forget(ss_beat_memory_t *self);

/*
 * Whether a candidate looks like the usual beats: shape, and size within a factor of two.
 * c: The candidate.
 */
bool ss_beat_memory_is_like(const ss_beat_memory_t *self, const ss_beat_candidate_t *c);

/*
 * Whether it looks like them so much that nothing else need be asked: size from 3/4 to 21/16.
 * c: The candidate.
 */
bool ss_beat_memory_is_sure(const ss_beat_memory_t *self, const ss_beat_candidate_t *c);

/*
 * Whether it looks like the other kind, size from 3/4 to 3/2.
 * c: The candidate.
 */
bool ss_beat_memory_is_kin(const ss_beat_memory_t *self, const ss_beat_candidate_t *c);

/*
 * How far the slopes of its kind reach; of its own where it belongs to none.
 * c: The candidate.
 */
int32_t ss_beat_memory_spread_of(const ss_beat_memory_t *self, const ss_beat_candidate_t *c);

/*
 * Locates the complex of a hump and says what it looks like.
 * w: Lengths.
 * ecg: Held ECG.
 * locator: Finds complexes.
 * middle: Middle of the hump.
 * last: Newest working sample.
 * c: Gets everything but the height.
 */
void ss_beat_memory_look(const ss_beat_memory_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, ss_beat_locator_t *locator,
    int64_t middle, int64_t last, ss_beat_candidate_t *c);

/*
 * A beat was found: it adds to its kind. What belongs to none begins the other kind anew, unless that one is well known and doubt has come up
 * since. Six of the other kind in a row make it the usual one; twelve that are neither, and everything is learned anew.
 * c: The beat.
 * doubt: Doubt about what looks strange.
 * is_kin_trusted: Whether what looks like the other kind counts.
 * is_proven: Whether the rhythm leaves no other explanation than a beat.
 */
void ss_beat_memory_learn(ss_beat_memory_t *self, const ss_beat_candidate_t *c, int32_t doubt, bool is_kin_trusted, bool is_proven);

static inline bool ss_beat_memory_is_learning(const ss_beat_memory_t *self)
{
    return self->usual.count < 3;
}

#endif
