/* Generated from SensorSim.Detection/Control/SecondMean.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/second_mean.h"
#include "fixed_point/shift.h"

bool ss_second_mean_start(ss_second_mean_t *self, int32_t rate_hz, int32_t zero_code, int32_t maximum_code)
{
    *self = (ss_second_mean_t){ 0 };
    if ((rate_hz < 1) || (rate_hz > SS_SECOND_MEAN_MOST_RATE_HZ) || (maximum_code <= zero_code)) {
        return false;
    }

    self->shift = (uint8_t)ss_shift_needed(maximum_code - zero_code, 16);
    self->zero = zero_code;
    self->rate_hz = (uint16_t)rate_hz;
    self->room = (uint16_t)ss_shift_floor(maximum_code - zero_code, self->shift);
    return true;
}

bool ss_second_mean_is_before(const ss_second_mean_t *self, int64_t index, int32_t rate_hz)
{
    return (int64_t)self->second < (index / (int64_t)rate_hz);
}

int32_t ss_second_mean_mean_of_closed(const ss_second_mean_t *self)
{
    return self->sum / self->count;
}

void ss_second_mean_begin(ss_second_mean_t *self, int64_t index)
{
    self->second = (int32_t)(index / (int64_t)self->rate_hz);
    self->sum = 0;
    self->count = 0;
    self->is_clipped = false;
    self->is_mixed = false;
}
