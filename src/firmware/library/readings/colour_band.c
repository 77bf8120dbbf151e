/* Generated from SensorSim.Detection/Readings/ColourBand.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/wide.h"
#include "readings/colour_band.h"

void ss_colour_band_restart(ss_colour_band_t *self, int32_t sum)
{
    self->slow = ss_shift_left64((int64_t)sum, SS_COLOUR_BAND_FRACTION);
    self->slower = INT64_C(0);
}

int32_t ss_colour_band_next(ss_colour_band_t *self, int32_t sum, int32_t shift)
{
    int64_t once = ss_shift_left64((int64_t)sum, SS_COLOUR_BAND_FRACTION) - self->slow;
    self->slow += ss_wide_floor(once, SS_COLOUR_BAND_CORNER);
    int64_t twice = once - self->slower;
    self->slower += ss_wide_floor(twice, SS_COLOUR_BAND_CORNER);
    int64_t scaled = (shift == 0) ? twice : ss_wide_floor(twice + ss_shift_left64(INT64_C(1), shift - 1), shift);
    return (scaled > (int64_t)SS_COLOUR_BAND_LIMIT) ? SS_COLOUR_BAND_LIMIT : ((scaled < (int64_t)-33554431) ? -33554431 : (int32_t)scaled);
}
