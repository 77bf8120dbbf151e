/* Generated from SensorSim.FixedPoint/MovingSum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/moving_sum.h"
#include "fixed_point/words.h"

void ss_moving_sum_restart(ss_moving_sum_t *self, int32_t length, int32_t value)
{
    self->length = length;
    self->at = 0;
    self->sum = 0;
    for (int32_t i = 0; i < length; i++) {
        self->held.at[i] = value;
        self->sum = ss_wrap_add32(self->sum, value);
    }
}
