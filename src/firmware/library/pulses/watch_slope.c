/* Generated from SensorSim.Detection/Pulses/WatchSlope.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pulses/watch_slope.h"

void ss_watch_slope_restart(ss_watch_slope_t *self, int32_t arm, int32_t value)
{
    self->arm = arm;
    self->sum = ((2 * arm) + 1) * value;
    self->weighted = 0;
}

void ss_watch_slope_raise(ss_watch_slope_t *self, int32_t by)
{
    self->sum = ss_wrap_add32(self->sum, ss_wrap_mul32(ss_wrap_add32(ss_wrap_mul32(2, self->arm), 1), by));
}
