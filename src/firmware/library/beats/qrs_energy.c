/* Generated from SensorSim.Detection/Beats/QrsEnergy.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_sum.h"
#include "beats/beat_windows.h"
#include "beats/qrs_energy.h"

void ss_qrs_energy_restart(ss_qrs_energy_t *self, const ss_beat_windows_t *windows)
{
    ss_beat_sum_restart(&self->sum, windows->integration, 0);
}
