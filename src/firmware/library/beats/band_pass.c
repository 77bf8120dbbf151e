/* Generated from SensorSim.Detection/Beats/BandPass.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/band_pass.h"
#include "beats/band_sum.h"
#include "beats/beat_windows.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"

void ss_band_pass_restart(ss_band_pass_t *self, const ss_beat_windows_t *windows, int32_t value)
{
    self->shift = windows->sum_shift;
    self->arm = windows->arm;
    ss_band_sum_restart(&self->first, windows->first_sum, value);
    int32_t smoothed = ss_shift_floor(windows->first_sum * value, self->shift);
    ss_band_sum_restart(&self->second, windows->second_sum, smoothed);
    for (int32_t i = 0; i < SS_WORD16_LENGTH; i++) {
        self->held.at[i] = smoothed * windows->second_sum;
    }
}
