/* Generated from SensorSim.Detection/Readings/RhythmCheck.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_RHYTHM_CHECK_H
#define SS_READINGS_RHYTHM_CHECK_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "readings/beat_clock.h"
#include "readings/rings.h"

#define SS_RHYTHM_CHECK_KEPT 32
#define SS_RHYTHM_CHECK_LEAST 24
#define SS_RHYTHM_CHECK_STEPS_PER_SECOND 4000
#define SS_RHYTHM_CHECK_LONGEST 65535
#define SS_RHYTHM_CHECK_EVERY 4
#define SS_RHYTHM_CHECK_AGREE 2

/*
 * Tells whether the rhythm is irregular without order, as in atrial fibrillation: sample entropy of the last 32 RR intervals.
 * Sample entropy asks: of the pairs of places where m intervals match within r, how many match in the next one too? (Richman and Moorman 2000;
 * for short ECG strips with r tied to the mean RR interval: Lake and Moorman 2011; both from memory.) With r a twelfth of the mean, random
 * intervals of a spread of 15 % and more match again in fewer than 3/8 of the cases; ectopic beats in a steady rhythm match again, for their
 * coupling and pause do; deep respiratory arrhythmia needs m = 2, which knows whether the rate is rising or falling. So both m = 1 and m = 2
 * have to be low. Intervals beside a beat that is not normal are missing and match nothing. Input: places in 1/256 tick; intervals become
 * quarters of a millisecond in 16 bits. Product: none. Accumulator: counts of at most 465 pairs. Worst case: 496 pairs are compared, every
 * fourth beat; the rest is logic on words of 32 places. Output: a state; two decisions in a row, so 8 beats, change it. First one after 32
 * intervals.
 */
struct ss_rhythm_check {
    ss_half32_t intervals;
    ss_beat_clock_t clock;
    int64_t last256;
    uint8_t at;
    uint8_t held;
    uint8_t since_look;
    uint8_t votes;
    bool has_last;
    bool was_normal;
    bool is_irregular; /* Whether the rhythm is irregular; false while nothing is known. */
};

struct ss_rhythm_check_matches {
    int32_t one;
    int32_t two;
    int32_t two_asked;
    int32_t three;
};

/* Whether enough intervals came since the gate opened to say so. */
static inline bool ss_rhythm_check_is_known(const ss_rhythm_check_t *self);

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_rhythm_check_start(ss_rhythm_check_t *self, ss_common_clock_t clock);

/*
 * The gate has shut: nothing is claimed until 32 intervals have come anew.
 * Returns: Whether is_irregular has changed.
 */
bool ss_rhythm_check_shut(ss_rhythm_check_t *self);

/*
 * Takes a beat; call it only while the gate is open.
 * ticks256: Its R peak [1/256 tick].
 * starts_run: Whether there is no interval to it.
 * is_normal: Whether it is neither wide nor paced.
 * Returns: Whether is_irregular has changed.
 */
bool ss_rhythm_check_add(ss_rhythm_check_t *self, int64_t ticks256, bool starts_run, bool is_normal);

static inline bool ss_rhythm_check_is_known(const ss_rhythm_check_t *self)
{
    return self->held == SS_RHYTHM_CHECK_KEPT;
}

#endif
