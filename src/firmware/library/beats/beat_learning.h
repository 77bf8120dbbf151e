/* Generated from SensorSim.Detection/Beats/BeatLearning.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_LEARNING_H
#define SS_BEATS_BEAT_LEARNING_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

#define SS_BEAT_LEARNING_BLOCKS 4
#define SS_BEAT_LEARNING_PATIENT_BLOCKS 8

/*
 * Side stage: what the last 2 s of integrated magnitude looked like, for the first levels and for new ones after silence.
 * Input: 31 bits unsigned. Product: none. Accumulator: 64 bits for the sum of a block, 256 values; 32 bits for block means in quarters. Worst
 * case: 2^31 × 256 = 2^39 for a block, divided in units of 2^9. Output: highest value and mean of 2 s in the input's format, floor to within a
 * few units.
 */
struct ss_beat_learning {
    ss_word8_t highest;
    ss_word8_t means;
    int32_t block_highest;
    int64_t block_sum;
    int32_t taken;
    int32_t filled;
    int32_t waited;
    int32_t highest_told; /* Highest value of the last four blocks. */
    int32_t mean; /* Mean of the last four blocks. */
};

/*
 * Whether the stretch stands out of itself as beats do: highest above 2 1/2 times the mean, or, where none has done so for four seconds, above
 * 2 1/4 times: fast beats with large T waves fill most of the time between them.
 */
static inline bool ss_beat_learning_has_beats(const ss_beat_learning_t *self);

/* Forgets. */
void ss_beat_learning_restart(ss_beat_learning_t *self);

/*
 * Takes the next value.
 * value: Integrated magnitude.
 * block_length: Working samples in a block.
 * Returns: Whether a block is complete.
 */
static inline bool ss_beat_learning_next(ss_beat_learning_t *self, int32_t value, int32_t block_length);

void ss_beat_learning_close(ss_beat_learning_t *self, int32_t block_length);

static inline bool ss_beat_learning_has_beats(const ss_beat_learning_t *self)
{
    return (self->filled >= SS_BEAT_LEARNING_BLOCKS)
        && ((ss_shift_right32(self->highest_told, 1) > (self->mean + ss_shift_right32(self->mean, 2)))
        || ((self->waited >= SS_BEAT_LEARNING_PATIENT_BLOCKS)
        && (self->highest_told > ((2 * self->mean) + ss_shift_right32(self->mean, 2)))));
}

static inline bool ss_beat_learning_next(ss_beat_learning_t *self, int32_t value, int32_t block_length)
{
    self->block_highest = (value > self->block_highest) ? value : self->block_highest;
    self->block_sum += (int64_t)value;
    self->taken++;
    if (self->taken < block_length) {
        return false;
    }

    ss_beat_learning_close(self, block_length);
    return true;
}

#endif
