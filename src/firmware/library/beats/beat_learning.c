/* Generated from SensorSim.Detection/Beats/BeatLearning.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_learning.h"
#include "fixed_point/words.h"

void ss_beat_learning_restart(ss_beat_learning_t *self)
{
    *self = (ss_beat_learning_t){ 0 };
}

void ss_beat_learning_close(ss_beat_learning_t *self, int32_t block_length)
{
    int32_t at = self->filled & (SS_BEAT_LEARNING_BLOCKS - 1);
    self->highest.at[at] = self->block_highest;

    /* Quotient and remainder separately, so that 32 bits do. Twice a second, not per sample. */
    int32_t sum512 = (int32_t)ss_shift_right64(self->block_sum, 9);
    int32_t quotient = sum512 / block_length;
    int32_t remainder = sum512 - (quotient * block_length);
    self->means.at[at] = ss_shift_left32(quotient, 7) + (ss_shift_left32(remainder, 7) / block_length);
    self->waited += (self->waited < SS_BEAT_LEARNING_PATIENT_BLOCKS) ? 1 : 0;
    self->filled = (self->filled == ((2 * SS_BEAT_LEARNING_BLOCKS) - 1)) ? SS_BEAT_LEARNING_BLOCKS : (self->filled + 1);
    self->block_highest = 0;
    self->block_sum = INT64_C(0);
    self->taken = 0;
    self->highest_told = 0;
    int32_t sum = 0;
    for (int32_t i = 0; i < SS_BEAT_LEARNING_BLOCKS; i++) {
        self->highest_told = (self->highest.at[i] > self->highest_told) ? self->highest.at[i] : self->highest_told;
        sum += self->means.at[i];
    }

    self->mean = sum;
}
