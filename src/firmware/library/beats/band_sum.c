/* Generated from SensorSim.Detection/Beats/BandSum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/band_sum.h"
#include "fixed_point/words.h"

void ss_band_sum_restart(ss_band_sum_t *self, int32_t length, int32_t value)
{
    self->length = length;
    self->at = 0;
    self->sum = ss_wrap_mul32(length, value);
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        self->held.at[i] = value;
    }
}
