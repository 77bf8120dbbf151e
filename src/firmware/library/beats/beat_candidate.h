/* Generated from SensorSim.Detection/Beats/BeatCandidate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_CANDIDATE_H
#define SS_BEATS_BEAT_CANDIDATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_words.h"

/* What is known of one hump: where its complex lies, how high and steep it is, and what it looks like. */
struct ss_beat_candidate {
    ss_slopes16_t slopes; /* Slopes round the R peak, 12 bits and sign, in units of 2^scale. */
    int32_t scale; /* Shift of the slopes. */
    int64_t position256; /* Place of the R peak [1/256 working sample]. */
    int32_t deviation; /* Deviation of the R peak from the level before the complex, sign kept. */
    int32_t slope; /* Steepest slope of the complex. */
    int32_t height; /* Height of the hump. */
    int32_t fit; /* Likeness to the usual beats [1/256], −256 to 256. */
    int32_t other_fit; /* Likeness to the other kind of beats [1/256], −256 to 256. */
    int32_t size; /* Size of what is like the usual beats, in slopes. */
    int32_t other_size; /* Size of what is like the other kind. */
    bool is_after_loss; /* Whether a beat may have been lost in a gap right before it. */
    bool is_wide; /* Whether the complex, or the kind it belongs to, is wide. */
    uint8_t quality; /* Trust, 0 to 255. */
};

#endif
