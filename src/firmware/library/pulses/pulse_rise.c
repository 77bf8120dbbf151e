/* Generated from SensorSim.Detection/Pulses/PulseRise.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "pulses/pulse_rise.h"

int32_t ss_pulse_rise_of(int32_t height, int32_t slope, int32_t scale_shift)
{
    /* height × 2^14 × 16 / slope. */
    int32_t up = ss_shift_round(height, scale_shift);
    int32_t run = ss_shift_round(slope, 6);
    return ((run <= 0) || (up < 0) || (up >= (1 << 17))) ? SS_PULSE_RISE_MOST
        : ss_sat_narrow(ss_shift_left32(up, 12) / run, SS_PULSE_RISE_MOST);
}

bool ss_pulse_rise_is_of_pulse(const ss_pulse_rise_t *self, int32_t rise16, bool is_too_steep, bool is_pressing)
{
    if ((self->usual16 == 0) || (is_too_steep && is_pressing)) {
        return true;
    }

    return is_too_steep ? ((rise16 < (2 * self->usual16)) && (rise16 > ss_shift_floor(self->usual16, 1))) : (rise16 <= (3 * self->usual16));
}

void ss_pulse_rise_add(ss_pulse_rise_t *self, int32_t rise16)
{
    self->usual16 = (self->usual16 == 0) ? rise16 : (self->usual16 + ss_shift_round(rise16 - self->usual16, 2));
}
