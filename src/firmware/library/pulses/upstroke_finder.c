/* Generated from SensorSim.Detection/Pulses/UpstrokeFinder.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "pulses/upstroke_finder.h"

void ss_upstroke_finder_restart(ss_upstroke_finder_t *self, int32_t longest)
{
    *self = (ss_upstroke_finder_t){ 0 };
    self->longest = longest;
}

int32_t ss_upstroke_finder_zero_crossing256(const ss_upstroke_finder_t *self)
{
    int32_t before = self->before;
    int32_t after = (self->after < 0) ? -self->after : 0;
    int32_t shift = ss_shift_needed((before > after) ? before : after, 22);
    before = ss_shift_floor(before, shift);
    after = ss_shift_floor(after, shift);
    return ((before + after) == 0) ? 0 : (((before * 256) + ss_shift_floor(before + after, 1)) / (before + after));
}
