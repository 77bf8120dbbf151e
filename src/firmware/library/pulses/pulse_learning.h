/* Generated from SensorSim.Detection/Pulses/PulseLearning.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_LEARNING_H
#define SS_PULSES_PULSE_LEARNING_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

/* Blocks in the 2 s. */
#define SS_PULSE_LEARNING_BLOCKS 4

/*
 * Side stage: the steepest upstroke of the last 2 s without a pulse, for the first level and for a new one after silence.
 * Input: 31 bits and sign. Product: none. Accumulator: none, comparisons only. Worst case: none. Output: steepest value in the input's format.
 * Gaps do not end it: it goes on with the next sample.
 */
struct ss_pulse_learning {
    ss_word8_t steepest;
    int32_t block;
    int32_t taken;
    int32_t steepest_told; /* Steepest value of the last four blocks. */
    int32_t filled; /* Blocks since the start or the last pulse, at most 7. */
};

/*
 * Begins anew after a pulse: what is left of it is not looked at.
 * quiet: Working samples that pass unseen.
 */
void ss_pulse_learning_restart(ss_pulse_learning_t *self, int32_t quiet);

/*
 * Takes the next slope.
 * slope: The slope.
 * block_length: Working samples in a block.
 * limit: Steeper ones are no pulses.
 * Returns: Whether a block is complete.
 */
static inline bool ss_pulse_learning_next(ss_pulse_learning_t *self, int32_t slope, int32_t block_length, int32_t limit);

bool ss_pulse_learning_close(ss_pulse_learning_t *self);

static inline bool ss_pulse_learning_next(ss_pulse_learning_t *self, int32_t slope, int32_t block_length, int32_t limit)
{
    self->block = ((slope > self->block) && (slope <= limit) && (self->taken >= 0)) ? slope : self->block;
    self->taken++;
    return (self->taken >= block_length) && ss_pulse_learning_close(self);
}

#endif
