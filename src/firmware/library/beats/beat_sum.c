/* Generated from SensorSim.Detection/Beats/BeatSum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_sum.h"
#include "beats/beat_words.h"

void ss_beat_sum_restart(ss_beat_sum_t *self, int32_t length, int32_t value)
{
    self->length = length;
    self->at = 0;
    self->sum = ss_wrap_mul32(length, value);
    for (int32_t i = 0; i < SS_WORD32_LENGTH; i++) {
        self->held.at[i] = value;
    }
}
