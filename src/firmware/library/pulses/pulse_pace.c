/* Generated from SensorSim.Detection/Pulses/PulsePace.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "pulses/pulse_pace.h"

void ss_pulse_pace_begin_run(ss_pulse_pace_t *self)
{
    self->silence_before = (ss_pulse_pace_silence(self) < SS_PULSE_PACE_LONGEST) ? ss_pulse_pace_silence(self) : SS_PULSE_PACE_LONGEST;
    self->has_pulse = false;
    self->since = 0;
    self->is_lost = false;
}

void ss_pulse_pace_limit(ss_pulse_pace_t *self)
{
    self->since = (self->since < SS_PULSE_PACE_LONGEST) ? self->since : SS_PULSE_PACE_LONGEST;
}

void ss_pulse_pace_lose(ss_pulse_pace_t *self)
{
    self->is_lost = true;
}

void ss_pulse_pace_add(ss_pulse_pace_t *self, int32_t since, int32_t ago, int32_t first)
{
    if (!self->has_pulse) {
        self->interval = (self->interval == 0) ? first : self->interval;
    }
    else if (!self->is_lost) {
        /* A quarter of each new one; a pulse may have been missed, so long ones count as one and a half. */
        int32_t longest = self->interval + ss_shift_right32(self->interval, 1);
        self->interval += ss_shift_round(((since < longest) ? since : longest) - self->interval, 2);
    }

    self->has_pulse = true;
    self->is_lost = false;
    self->since = ago;
    self->silence_before = 0;
}
