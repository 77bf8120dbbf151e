/* Generated from SensorSim.Detection/Ambient/DarkSubtraction.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "ambient/dark_subtraction.h"
#include "ambient/lit_slot.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"

static void ss_dark_subtraction_choose(ss_dark_subtraction_t *self);

bool ss_dark_subtraction_start(ss_dark_subtraction_t *self, int32_t light_rate_hz, int32_t dark_rate_hz, int32_t shift256,
    int32_t light_zero_code, int32_t dark_zero_code)
{
    if ((dark_rate_hz < SS_DARK_SUBTRACTION_MINIMUM_RATE_HZ) || (light_rate_hz > SS_DARK_SUBTRACTION_MAXIMUM_RATE_HZ)
        || (light_rate_hz < dark_rate_hz) || ((light_rate_hz % dark_rate_hz) != 0) || (shift256 < 0) || (shift256 > 255)) {
        return false;
    }

    *self = (ss_dark_subtraction_t){ 0 };
    ss_lit_slot_start(&self->own, light_rate_hz, dark_rate_hz, shift256, light_zero_code);
    self->dark_zero = dark_zero_code;
    self->level_shift = ss_shift_needed(dark_rate_hz, 1);
    return true;
}

void ss_dark_subtraction_dark(ss_dark_subtraction_t *self, int32_t code)
{
    int32_t dark = code - self->dark_zero;
    int32_t dark64 = ss_shift_left32(dark, SS_DARK_SUBTRACTION_FRACTION);
    if (self->seen == 0) {
        self->latest = dark;
        self->smooth = dark64;
        self->level = dark64;
    }

    self->slope = ss_sat_narrow(dark - self->latest, SS_DARK_SUBTRACTION_SLOPE_RAIL);
    int32_t raw64 = ss_sat_narrow(ss_sat_abs32(dark64 - ss_shift_left32(self->latest, SS_DARK_SUBTRACTION_FRACTION)),
        SS_DARK_SUBTRACTION_MEAN_RAIL);
    int32_t off64 = ss_sat_narrow(ss_sat_abs32(dark64 - self->smooth), SS_DARK_SUBTRACTION_MEAN_RAIL);

    /* Sun, shade or a lamp: at once, and without going on as it went. The measures see it only as far as noise might go. */
    int32_t most = (self->seen < SS_DARK_SUBTRACTION_WARM) ? SS_DARK_SUBTRACTION_MEAN_RAIL
        : (ss_shift_left32(self->raw_error, 3) + (16 << SS_DARK_SUBTRACTION_FRACTION));
    most = ((most < 0) || (most > SS_DARK_SUBTRACTION_MEAN_RAIL)) ? SS_DARK_SUBTRACTION_MEAN_RAIL : most;
    if (off64 > most) {
        self->smooth = dark64;
    }

    if (raw64 > most) {
        self->slope = 0;
    }

    raw64 = (raw64 < most) ? raw64 : most;
    off64 = (off64 < most) ? off64 : most;
    self->latest = dark;
    self->raw_error += ss_shift_round(raw64 - self->raw_error, 5);
    self->smooth_error += ss_shift_round(off64 - self->smooth_error, 5);
    self->smooth += ss_shift_round(dark64 - self->smooth, SS_DARK_SUBTRACTION_SMOOTH_SHIFT);
    self->swing += ss_shift_round(ss_sat_narrow(ss_sat_abs32(dark64 - self->level), SS_DARK_SUBTRACTION_MEAN_RAIL) - self->swing,
        self->level_shift);
    self->level += ss_shift_round(dark64 - self->level, self->level_shift);
    self->seen += (self->seen < SS_DARK_SUBTRACTION_WARM) ? 1 : 0;
    ss_dark_subtraction_choose(self);
    ss_lit_slot_dark(&self->own);
}

/*
 * White noise of 1: neighbours differ by 1.41, a sample and the smoothed ones before it by 1.03. In between lies where both serve alike; an
 * eighth of margin to each side keeps the choice from going to and fro.
 */
static void ss_dark_subtraction_choose(ss_dark_subtraction_t *self)
{
    if (self->seen < SS_DARK_SUBTRACTION_WARM) {
        return;
    }

    int32_t raw = self->raw_error;
    self->is_smoothing = self->is_smoothing ? (self->smooth_error < (raw + ss_shift_right32(raw, 3)))
        : (self->smooth_error < (raw - ss_shift_right32(raw, 3)));
}
