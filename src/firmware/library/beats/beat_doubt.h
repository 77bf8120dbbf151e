/* Generated from SensorSim.Detection/Beats/BeatDoubt.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_DOUBT_H
#define SS_BEATS_BEAT_DOUBT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_BEAT_DOUBT_LIMIT 8
#define SS_BEAT_DOUBT_MOST 64
#define SS_BEAT_DOUBT_STEP 24
#define SS_BEAT_DOUBT_SMALL_STEP 4
#define SS_BEAT_DOUBT_MOST_TRUST 4

/*
 * Side stage: how far what looks strange may be believed.
 * An artefact comes between two beats and leaves their interval as it is. An early beat of another origin is followed by a pause; one without
 * a pause is rare, and looks like the one before it. So each usual beat that ends a usual interval with something strange inside raises the
 * doubt, each pause after something strange lowers it, and each quiet interval lets it fade. Input: what was seen between two usual beats.
 * Product: none. Accumulator: 32 bits, small counts. Worst case: none. Output: doubt, 0 to 64; from 8 on nothing strange is a beat unless one
 * is missing.
 */
struct ss_beat_doubt {
    int64_t last256;
    bool has_last;
    int32_t strange;
    int32_t dropped;
    int32_t low;
    int32_t kin;
    int32_t trust;
    int32_t value; /* The doubt. */
};

/* Whether strange candidates are not believed. */
static inline bool ss_beat_doubt_is_high(const ss_beat_doubt_t *self);

/* Whether what looks like the other kind is believed: always without doubt, else if pauses have followed it. */
static inline bool ss_beat_doubt_is_kin_trusted(const ss_beat_doubt_t *self);

/* Forgets the doubt. */
void ss_beat_doubt_forget(ss_beat_doubt_t *self);

/* The run ends: what was seen since the last beat says nothing. */
void ss_beat_doubt_restart(ss_beat_doubt_t *self);

/* Something strange was high enough for a beat and was left out. */
void ss_beat_doubt_add_dropped(ss_beat_doubt_t *self);

/* Something strange stood out and was too low. */
void ss_beat_doubt_add_low(ss_beat_doubt_t *self);

/* Something strange was taken for a beat. */
void ss_beat_doubt_add_strange(ss_beat_doubt_t *self);

/* A beat of the other kind was found. */
void ss_beat_doubt_add_kin(ss_beat_doubt_t *self);

/*
 * A usual beat was found: weighs what came since the one before.
 * position256: Its R peak.
 * rhythm: Intervals.
 * is_learning: Whether the usual beats are still being learned.
 */
void ss_beat_doubt_weigh(ss_beat_doubt_t *self, int64_t position256, const ss_beat_rhythm_t *rhythm, bool is_learning);

static inline bool ss_beat_doubt_is_high(const ss_beat_doubt_t *self)
{
    return self->value >= SS_BEAT_DOUBT_LIMIT;
}

static inline bool ss_beat_doubt_is_kin_trusted(const ss_beat_doubt_t *self)
{
    return (self->trust > 0) || !ss_beat_doubt_is_high(self);
}

#endif
