/* Generated from SensorSim.Detection/Readings/BeatWindow.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/wide.h"
#include "readings/beat_clock.h"
#include "readings/beat_window.h"
#include "readings/rings.h"

void ss_beat_window_start(ss_beat_window_t *self, ss_common_clock_t clock)
{
    *self = (ss_beat_window_t){ 0 };
    ss_beat_clock_start(&self->clock, clock);
}

bool ss_beat_window_add(ss_beat_window_t *self, int64_t ticks256, bool starts_run)
{
    int32_t interval = self->has_last ? ss_beat_clock_steps(&self->clock, ss_beat_clock_span(&self->clock, self->end256, ticks256),
        SS_BEAT_WINDOW_STEPS_PER_SECOND) : 0;
    bool goes_on = self->has_last && !starts_run && (interval < 65535);
    self->intervals.at[self->at] = (uint16_t)(goes_on ? interval : 0);
    self->at = (uint8_t)((self->at + 1) & SS_BEAT_WINDOW_MASK);
    self->has_last = true;
    self->end256 = ticks256;
    return goes_on;
}

int64_t ss_beat_window_length256(const ss_beat_window_t *self, int32_t places)
{
    int64_t steps = INT64_C(0);
    for (int32_t i = 0; i < (places - 1); i++) {
        steps += (int64_t)self->intervals.at[(self->at - 1 - i) & SS_BEAT_WINDOW_MASK];
    }

    return ss_beat_clock_ticks256(&self->clock, ss_wide_floor((steps * ss_beat_clock_units_per_second(&self->clock)) + (int64_t)2048, 12));
}
