/* Generated from SensorSim.Detection/Beats/BeatRhythm.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_RHYTHM_H
#define SS_BEATS_BEAT_RHYTHM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

/*
 * The last eight RR intervals: what is usual, and whether they are regular enough to expect anything.
 * Input: working samples, 9 bits. Product: none. Accumulator: 32 bits. Worst case: none. Output: working samples.
 */
struct ss_beat_rhythm {
    ss_word8_t rr;
    int32_t at;
    int32_t count; /* Intervals seen, up to 8. */
    int32_t mean; /* Mean of them; 0 while there is none. */
    int32_t median; /* Median of them; 0 while there is none. */
    bool is_regular; /* Whether six of eight lie within an eighth of the median. */
};

/*
 * Takes an interval.
 * rr: The interval [working samples].
 */
void ss_beat_rhythm_add(ss_beat_rhythm_t *self, int32_t rr);

/*
 * Whether an interval lies within an eighth of the median.
 * rr: The interval.
 */
bool ss_beat_rhythm_is_usual(const ss_beat_rhythm_t *self, int32_t rr);

/*
 * Whether an interval has room for a beat left out: more than one and three eighths medians.
 * rr: The interval.
 */
bool ss_beat_rhythm_is_long(const ss_beat_rhythm_t *self, int32_t rr);

#endif
