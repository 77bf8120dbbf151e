/* Generated from SensorSim.Detection/Pulses/SampleMarks.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_SAMPLE_MARKS_H
#define SS_PULSES_SAMPLE_MARKS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

#define SS_SAMPLE_MARKS_MASK 255
#define SS_SAMPLE_MARKS_WORD_MASK 7

/*
 * One bit for each of the latest 256 working samples: the sensor did not give it, or gave it while it settled.
 * Input: one bit a sample. Product: none. Accumulator: none. Worst case: none. Output: bits; they cost something only for the 256 samples
 * after the last set one.
 */
struct ss_sample_marks {
    ss_word8_t bits;
    int32_t left;
};

/* Whether any bit may be set: then each sample has to be told. */
static inline bool ss_sample_marks_is_active(const ss_sample_marks_t *self);

/*
 * A new sample came, which takes the place of the one 256 before.
 * at: Its place.
 * is_marked: Whether its bit is set.
 */
void ss_sample_marks_put(ss_sample_marks_t *self, int32_t at, bool is_marked);

/*
 * How many samples without a bit come one after the other.
 * from: Place of the first.
 * most: Where to stop counting.
 */
int32_t ss_sample_marks_count_clear(const ss_sample_marks_t *self, int32_t from, int32_t most);

static inline bool ss_sample_marks_is_active(const ss_sample_marks_t *self)
{
    return self->left > 0;
}

#endif
