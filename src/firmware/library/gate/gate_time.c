/* Generated from SensorSim.Detection/Gate/GateTime.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "gate/gate_time.h"

void ss_gate_time_start(ss_gate_time_t *self, ss_common_clock_t clock)
{
    int64_t per_second = clock.ticks_per_second * INT64_C(256);
    self->shift = 0;
    while (ss_shift_right64(per_second, self->shift) > INT64_C(2047)) {
        self->shift++;
    }

    self->units_per_second = (int32_t)ss_shift_right64(per_second, self->shift);
}

int32_t ss_gate_time_units(const ss_gate_time_t *self, int64_t ticks256)
{
    int64_t units = (ticks256 < INT64_C(0)) ? INT64_C(0) : (int64_t)ss_shift_rightu64((uint64_t)ticks256, self->shift);
    return (units > INT64_C(2147483647)) ? INT32_MAX : (int32_t)units;
}

int32_t ss_gate_time_from_ms(const ss_gate_time_t *self, int32_t ms)
{
    return (int32_t)ss_shift_right64((int64_t)ms * (int64_t)SS_GATE_TIME_PER_MS * (int64_t)self->units_per_second, 17);
}

int64_t ss_gate_time_ticks256(const ss_gate_time_t *self, int32_t units)
{
    return ss_shift_left64((int64_t)units, self->shift);
}
