/* Generated from SensorSim.Detection/Pulses/PulseLearning.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/words.h"
#include "pulses/pulse_learning.h"

void ss_pulse_learning_restart(ss_pulse_learning_t *self, int32_t quiet)
{
    *self = (ss_pulse_learning_t){ 0 };
    self->taken = -quiet;
}

bool ss_pulse_learning_close(ss_pulse_learning_t *self)
{
    self->steepest.at[self->filled & (SS_PULSE_LEARNING_BLOCKS - 1)] = self->block;
    self->filled = (self->filled == ((2 * SS_PULSE_LEARNING_BLOCKS) - 1)) ? SS_PULSE_LEARNING_BLOCKS : (self->filled + 1);
    self->block = 0;
    self->taken = 0;
    self->steepest_told = 0;
    for (int32_t i = 0; i < SS_PULSE_LEARNING_BLOCKS; i++) {
        self->steepest_told = (self->steepest.at[i] > self->steepest_told) ? self->steepest.at[i] : self->steepest_told;
    }

    return true;
}
