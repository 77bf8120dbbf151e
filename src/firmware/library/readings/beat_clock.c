/* Generated from SensorSim.Detection/Readings/BeatClock.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/long_division.h"
#include "fixed_point/wide.h"
#include "readings/beat_clock.h"

void ss_beat_clock_start(ss_beat_clock_t *self, ss_common_clock_t clock)
{
    int64_t units = clock.ticks_per_second * INT64_C(256);
    self->shift = 0;
    while ((units * (int64_t)SS_BEAT_CLOCK_LONGEST_S) > INT64_C(2147483647)) {
        units = ss_shift_right_zero64(units, 1);
        self->shift++;
    }

    self->units_per_second = (int32_t)units;
}

int32_t ss_beat_clock_span(const ss_beat_clock_t *self, int64_t from256, int64_t to256)
{
    int64_t span = ss_wide_floor(to256, self->shift) - ss_wide_floor(from256, self->shift);
    return (span < INT64_C(0)) ? 0 : ((span > INT64_C(2147483647)) ? INT32_MAX : (int32_t)span);
}

int64_t ss_beat_clock_ticks256(const ss_beat_clock_t *self, int64_t units)
{
    return ss_shift_left64(units, self->shift);
}

int32_t ss_beat_clock_steps(const ss_beat_clock_t *self, int32_t units, int32_t steps_per_second)
{
    return ss_long_division_rounded((uint64_t)(uint32_t)units * (uint64_t)(uint32_t)steps_per_second, (uint32_t)self->units_per_second);
}
