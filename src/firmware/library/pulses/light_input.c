/* Generated from SensorSim.Detection/Pulses/LightInput.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/shift.h"
#include "pulses/light_input.h"
#include "pulses/pulse_windows.h"

static void ss_light_input_begin_line(ss_light_input_t *self, int32_t end);
static void ss_light_input_mark(ss_light_input_t *self, bool is_marked);

void ss_light_input_start(ss_light_input_t *self, const ss_pulse_windows_t *windows, int32_t polarity, int32_t zero_code)
{
    *self = (ss_light_input_t){ 0 };
    self->sign = -polarity;
    self->zero_code = zero_code;
    self->decimation = windows->decimation;
    self->short_bridge = windows->short_bridge;
}

void ss_light_input_restart(ss_light_input_t *self)
{
    self->sum = 0;
    self->phase = 0;
    self->fill_left = 0;
    self->jump = 0;
    self->settling = 0;
    self->is_marked = false;
    self->is_fresh = true;
    self->needs_care = true;
}

void ss_light_input_bridge(ss_light_input_t *self, int32_t count)
{
    self->fill_left += count;
    self->is_bridge_short = self->fill_left <= self->short_bridge;
    self->is_bridge_new = true;
}

void ss_light_input_settle(ss_light_input_t *self, int32_t samples)
{
    self->light_before = (self->settling > 0) ? self->light_before : ss_light_input_light_at(self, self->last);
    self->settling = samples + 1;
}

bool ss_light_input_next_filled(ss_light_input_t *self, int32_t code)
{
    if (self->is_bridge_new) {
        ss_light_input_begin_line(self, (self->sign < 0) ? -code : code);
    }

    self->fill_left--;
    self->line += self->line_step;
    self->last = ss_shift_round(self->line, SS_LIGHT_INPUT_LINE_BITS);
    ss_light_input_mark(self, !self->is_bridge_short || (self->settling > 0));
    return ss_light_input_add(self, self->last);
}

int32_t ss_light_input_light_at(const ss_light_input_t *self, int32_t filling)
{
    return (self->sign * self->zero_code) - filling;
}

bool ss_light_input_add(ss_light_input_t *self, int32_t value)
{
    self->sum += value;
    self->phase++;
    int32_t value_2 = self->phase;
    if (value_2 < self->decimation) {
        return false;
    }

    self->value = self->sum;
    self->sum = 0;
    self->phase = 0;
    return true;
}

bool ss_light_input_end_care(ss_light_input_t *self)
{
    bool is_marked = self->is_marked;
    self->is_marked = false;
    self->is_fresh = false;
    self->jump = 0;
    self->needs_care = false;
    return is_marked;
}

/* Once per gap: the line ends at the new code, one sample after the last missing one. */
static void ss_light_input_begin_line(ss_light_input_t *self, int32_t end)
{
    self->is_bridge_new = false;
    self->line = ss_shift_left32(self->last, SS_LIGHT_INPUT_LINE_BITS);
    self->line_step = (self->settling > 0) ? 0 : (ss_shift_left32(end - self->last, SS_LIGHT_INPUT_LINE_BITS) / (self->fill_left + 1));
}

static void ss_light_input_mark(ss_light_input_t *self, bool is_marked)
{
    self->is_marked = self->is_marked | is_marked;
    self->needs_care = self->needs_care | is_marked;
}

int32_t ss_light_input_settled(ss_light_input_t *self, int32_t value)
{
    ss_light_input_mark(self, true);
    self->settling--;
    if (self->settling > 0) {
        return (self->is_fresh && (self->phase == 0)) ? value : self->last;
    }

    /* The sums that are held move to the new level, so that no step is left. */
    int32_t jump = value - self->last;
    self->jump += jump * self->decimation;
    self->sum += jump * self->phase;
    int32_t after = ss_light_input_light_at(self, value);
    self->ratio256 = 256;
    if ((self->light_before > 0) && (after > 0)) {
        int32_t ratio = ss_long_division_rounded((uint64_t)after << 8, (uint32_t)self->light_before);
        self->ratio256 = (ratio < 16) ? 16 : ((ratio > 4096) ? 4096 : ratio);
    }

    return value;
}
