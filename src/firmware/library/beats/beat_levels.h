/* Generated from SensorSim.Detection/Beats/BeatLevels.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_LEVELS_H
#define SS_BEATS_BEAT_LEVELS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

/*
 * Fourth stage: what beats and what noise have looked like lately, and the threshold between them.
 * Input: 31 bits unsigned, heights of humps, halved on the way in so that medians have a guard bit. Product: by 5/16 as shifts and one
 * addition. Accumulator: 32 bits. Worst case: 5 × 2^26 after the shift, below 2^31. Output: thresholds in the format of the heights.
 */
struct ss_beat_levels {
    ss_word8_t signals;
    ss_word8_t noises;
    int32_t signal_at;
    int32_t noise_at;
    int16_t more1024;
    int32_t half_signal; /* Typical height of a beat, halved; 0 while nothing is learned. */
    int32_t half_noise; /* Typical height of what is no beat, halved. */
    int32_t threshold; /* Height above which a hump is a beat. */
    int32_t look_back_threshold; /* Height that is enough when a beat is overdue: half the threshold, but an eighth above the noise. */
};

/* Whether there are levels at all. */
static inline bool ss_beat_levels_is_learned(const ss_beat_levels_t *self);

/*
 * Sets how high the thresholds are, of the usual ones.
 * percent: 25 to 400.
 */
void ss_beat_levels_set_percent(ss_beat_levels_t *self, int32_t percent);

/*
 * Sets both levels from a stretch of signal.
 * signal: Height taken for a beat's.
 * noise: Height taken for noise.
 */
void ss_beat_levels_learn(ss_beat_levels_t *self, int32_t signal, int32_t noise);

/*
 * A beat of this height was found. Heights count up to three times the typical one.
 * height: Height of the hump.
 */
void ss_beat_levels_add_signal(ss_beat_levels_t *self, int32_t height);

/*
 * A hump of this height was no beat.
 * height: Height of the hump.
 */
void ss_beat_levels_add_noise(ss_beat_levels_t *self, int32_t height);

static inline bool ss_beat_levels_is_learned(const ss_beat_levels_t *self)
{
    return self->half_signal != 0;
}

#endif
