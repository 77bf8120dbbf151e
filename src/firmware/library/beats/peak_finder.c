/* Generated from SensorSim.Detection/Beats/PeakFinder.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/peak_finder.h"

void ss_peak_finder_restart(ss_peak_finder_t *self, int32_t hold)
{
    self->hold = hold;
    self->is_rising = false;
    self->lowest = 0;
    self->height = 0;
    self->age = 0;
}
