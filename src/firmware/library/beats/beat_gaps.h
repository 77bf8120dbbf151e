/* Generated from SensorSim.Detection/Beats/BeatGaps.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_GAPS_H
#define SS_BEATS_BEAT_GAPS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_words.h"

/*
 * Side stage: fills short gaps by a straight line, and remembers where, so that no beat is told from inside.
 * Input: codes of 24 bits, gaps of up to 250 samples. Product: none; one division for each gap. Accumulator: 64 bits, Q56.8. Worst case: 25
 * bits of difference times 256. Output: codes, floor.
 */
struct ss_beat_gaps {
    ss_wide4_t from;
    ss_wide4_t until;
    int32_t at;
    int64_t value256;
    int64_t step256;
    int32_t length;
    bool is_aimed;
    bool is_open; /* Whether samples are still to be filled in. */
    bool is_long; /* Whether the gap is too long to be bridged: the run ends with it. */
    int32_t last; /* Latest sample that came. */
};

/* Forgets all gaps. */
void ss_beat_gaps_restart(ss_beat_gaps_t *self);

/*
 * A gap comes: a short one will be bridged, of a long one only the begin is filled, so that what came before is decided.
 * w: Lengths.
 * next: Index that would come next.
 * index: Index that comes.
 */
void ss_beat_gaps_open(ss_beat_gaps_t *self, const ss_beat_windows_t *w, int64_t next, int64_t index);

/*
 * The first sample after the gap has come.
 * code: It.
 */
void ss_beat_gaps_aim(ss_beat_gaps_t *self, int32_t code);

/*
 * The next sample of the line.
 * code: The sample.
 * Returns: Whether there was one left.
 */
bool ss_beat_gaps_try_fill(ss_beat_gaps_t *self, int32_t *code);

/*
 * Whether a place lies inside of what was filled in.
 * index: Sample index.
 */
bool ss_beat_gaps_holds(const ss_beat_gaps_t *self, int64_t index);

#endif
