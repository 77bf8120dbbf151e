/* Generated from SensorSim.Detection/Pipeline/LightPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "ambient/dark_subtraction.h"
#include "ambient/lit_slot.h"
#include "common/sample_flags.h"
#include "common/sample_position.h"
#include "fixed_point/shift.h"
#include "movement/canceller.h"
#include "movement/pulse_spectrum.h"
#include "pipeline/beside.h"
#include "pipeline/channel_role.h"
#include "pipeline/channel_state.h"
#include "pipeline/found_list.h"
#include "pipeline/library_input.h"
#include "pipeline/library_setup.h"
#include "pipeline/light_path.h"
#include "pipeline/movement_path.h"
#include "pipeline/tuning.h"
#include "pulses/pulse_detector.h"
#include "pulses/pulse_event.h"
#include "readings/oxygen.h"
#include "readings/oxygen_table.h"

static bool ss_light_path_start_dark(ss_dark_subtraction_t *subtraction, const ss_channel_setup_t *light, const ss_channel_setup_t *dark);
static int32_t ss_light_path_shift_of(const ss_channel_setup_t *light, const ss_channel_setup_t *dark);
static void ss_light_path_take_beside(ss_light_path_t *self, ss_beside_t *beside, int64_t tick, ss_found_list_t *found);
static void ss_light_path_take_usable(ss_light_path_t *self, ss_view_int32_t codes, uint16_t status, int64_t index, ss_beside_t *beside,
    ss_found_list_t *found);
static void ss_light_path_interrupt(ss_light_path_t *self);
static void ss_light_path_bridge_spectrum(ss_light_path_t *self, int64_t index);
static void ss_light_path_take_some(ss_light_path_t *self, ss_view_int32_t codes, int64_t index, ss_beside_t *beside,
    ss_found_list_t *found);
static void ss_light_path_take_for_pulses(ss_light_path_t *self, int32_t light, ss_found_list_t *found);
static void ss_light_path_take_red(ss_light_path_t *self, const ss_channel_piece_t *red, int64_t index, int32_t infrared);

void ss_light_path_set_is_spectrum_resting(ss_light_path_t *self, bool value)
{
    self->spectrum.is_resting = value;
}

bool ss_light_path_start(ss_light_path_t *self, const ss_library_setup_t *setup, const ss_oxygen_table_t *table, const ss_tuning_t *tuning)
{
    self->role = ss_library_setup_light(setup);
    ss_movement_path_start(&self->movement, setup);
    if (self->role == SS_CHANNEL_ROLE_NONE) {
        return true;
    }

    ss_channel_setup_t light = ss_library_setup_at(setup, self->role);
    ss_channel_setup_t red = ss_library_setup_at(setup, SS_CHANNEL_ROLE_RED);
    ss_channel_setup_t dark = ss_library_setup_at(setup, SS_CHANNEL_ROLE_DARK);
    self->state = ss_channel_state_make(light.ticks_per_sample);
    self->main = ss_light_path_colour_setup_make(&light);
    self->red = ss_light_path_colour_setup_make(&red);
    self->red_expected = -INT64_C(1);
    self->longest_bridge = ss_shift_floor(light.rate_hz, 1);
    self->dark_step = dark.ticks_per_sample;
    self->dark_polarity = dark.polarity;
    self->has_dark = ss_channel_setup_is_there(&dark) && ss_light_path_start_dark(&self->dark, &light, &dark);
    self->has_spectrum = ss_pulse_spectrum_start(&self->spectrum, light.rate_hz);
    self->has_oxygen = (self->role == SS_CHANNEL_ROLE_INFRARED) && ss_channel_setup_is_there(&red) && (red.rate_hz == light.rate_hz)
        && ss_oxygen_start(&self->oxygen, light.rate_hz, setup->clock, table);
    if (self->has_oxygen && self->has_dark) {
        ss_lit_slot_start(&self->red_slot, red.rate_hz, dark.rate_hz, ss_light_path_shift_of(&red, &dark), self->red.zero);
    }

    if (self->movement.is_there) {
        int32_t rate_hz = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ACCEL_X).rate_hz;
        (void)ss_canceller_start(&self->canceller, light.rate_hz, rate_hz);
        (void)ss_canceller_start(&self->red_canceller, light.rate_hz, rate_hz);
    }

    /* The codes come in as light above zero from here on. */
    return ss_pulse_detector_start_4(&self->pulses, light.rate_hz, 1, 0, tuning);
}

void ss_light_path_take(ss_light_path_t *self, ss_channel_piece_t light, ss_beside_t *beside, int64_t last_tick, ss_found_list_t *found)
{
    for (int32_t done = 0; done < light.codes.length; ) {
        int32_t count = ss_channel_state_count_alike(&self->state, ss_view_uint16_from(light.status, done));
        if (self->state.is_usable) {
            ss_light_path_take_usable(self, ss_view_int32_slice(light.codes, done, count), light.status.at[done], light.first_index
                + (int64_t)done, beside, found);
        }

        done += count;
    }

    ss_light_path_take_beside(self, beside, last_tick, found);
}

static bool ss_light_path_start_dark(ss_dark_subtraction_t *subtraction, const ss_channel_setup_t *light, const ss_channel_setup_t *dark)
{
    return ss_dark_subtraction_start(subtraction, light->rate_hz, dark->rate_hz, ss_light_path_shift_of(light, dark),
        light->zero_code * light->polarity, dark->zero_code * dark->polarity);
}

/* A slot that lies later has the smaller declared delay. Both in 1/256 tick; the interval of the dark slot has 256 parts. */
static int32_t ss_light_path_shift_of(const ss_channel_setup_t *light, const ss_channel_setup_t *dark)
{
    return (int32_t)(((dark->delay256 - light->delay256) / (int64_t)dark->ticks_per_sample) & INT64_C(255));
}

/* Everything that has come beside the light up to a tick. */
static void ss_light_path_take_beside(ss_light_path_t *self, ss_beside_t *beside, int64_t tick, ss_found_list_t *found)
{
    while ((beside->dark_at < beside->dark.codes.length)
        && (((beside->dark.first_index + (int64_t)beside->dark_at) * (int64_t)self->dark_step) <= tick)) {
        int32_t code = beside->dark.codes.at[beside->dark_at] * self->dark_polarity;
        bool is_usable = (beside->dark.status.at[beside->dark_at] & SS_SAMPLE_FLAGS_CLIPPED) == 0;
        beside->dark_at++;
        if (is_usable && self->has_dark) {
            ss_dark_subtraction_dark(&self->dark, code);
            ss_lit_slot_dark(&self->red_slot);
        }
    }

    if (self->movement.is_there) {
        ss_movement_path_take(&self->movement, beside, tick, found);
    }
}

static void ss_light_path_take_usable(ss_light_path_t *self, ss_view_int32_t codes, uint16_t status, int64_t index, ss_beside_t *beside,
    ss_found_list_t *found)
{
    if (index != self->state.expected) {
        ss_pulse_detector_restart(&self->pulses, index);
        ss_light_path_interrupt(self);
        ss_light_path_bridge_spectrum(self, index);
    }

    if (ss_channel_state_take_settings(&self->state, status)) {
        ss_found_t value = (ss_found_t){ .tick = index * (int64_t)self->state.step, .kind = SS_FOUND_KIND_STEP };
        ss_found_list_add(found, &value);
        ss_pulse_detector_step(&self->pulses, index);
        ss_light_path_interrupt(self);

        /* A step of the level has power at every rate. */
        ss_pulse_spectrum_restart(&self->spectrum);
    }

    self->state.expected = index + (int64_t)codes.length;
    ss_light_path_take_some(self, codes, index, beside, found);
}

/* What follows does not go on from what was. */
static void ss_light_path_interrupt(ss_light_path_t *self)
{
    ss_canceller_restart(&self->canceller);
    ss_canceller_restart(&self->red_canceller);
    ss_oxygen_restart(&self->oxygen);
}

/* The spectrum counts samples: a short gap is filled with what was last, a long one begins it anew. */
static void ss_light_path_bridge_spectrum(ss_light_path_t *self, int64_t index)
{
    int64_t missing = index - self->state.expected;
    if (!self->has_spectrum || (self->state.expected < INT64_C(0))) {
        return;
    }

    if (missing > (int64_t)self->longest_bridge) {
        ss_pulse_spectrum_restart(&self->spectrum);
        return;
    }

    for (int64_t i = INT64_C(0); i < missing; i++) {
        /* No window may end in the gap: its place would not be told. */
        (void)ss_pulse_spectrum_next(&self->spectrum, self->last, 0);
    }
}

static void ss_light_path_take_some(ss_light_path_t *self, ss_view_int32_t codes, int64_t index, ss_beside_t *beside,
    ss_found_list_t *found)
{
    for (int32_t i = 0; i < codes.length; i++) {
        int64_t tick = (index + (int64_t)i) * (int64_t)self->state.step;
        ss_light_path_take_beside(self, beside, tick, found);
        int32_t code = codes.at[i] * self->main.polarity;
        int32_t light = self->has_dark ? ss_dark_subtraction_next(&self->dark, code) : (code - self->main.zero);
        int32_t taken = 0;
        if (self->movement.is_there) {
            light = ss_canceller_next(&self->canceller, light, &self->movement.reference);
            taken = self->canceller.estimate_told;
        }

        self->last = light;
        if (self->has_oxygen) {
            ss_light_path_take_red(self, &beside->red, index + (int64_t)i, light);
        }

        if (self->has_spectrum && ss_pulse_spectrum_next(&self->spectrum, light, taken)) {
            ss_found_t value = (ss_found_t){ .tick = tick, .kind = SS_FOUND_KIND_SPECTRUM, .rate_milli = self->spectrum.rate_milli_bpm,
                .quality = self->spectrum.quality, .is_trusted = self->spectrum.is_trusted };
            ss_found_list_add(found, &value);
        }

        ss_light_path_take_for_pulses(self, light, found);
    }
}

/* Sample by sample, so that what belongs to a pulse ends with the sample that showed it, however the stream is cut. */
static void ss_light_path_take_for_pulses(ss_light_path_t *self, int32_t light, ss_found_list_t *found)
{
    int32_t done;
    do {
        bool is_pulse = false;
        done = ss_pulse_detector_take(&self->pulses, ss_view_int32_of(&light, 1), &is_pulse);
        if (is_pulse) {
            ss_pulse_event_t pulse = ss_pulse_detector_event(&self->pulses);
            bool is_oxygen = self->has_oxygen && ss_oxygen_pulse(&self->oxygen, &pulse,
                ss_sample_position_in256(pulse.foot) * (int64_t)self->state.step);
            ss_found_list_add_pulse(found, &pulse, ss_pulse_detector_signal_level(&self->pulses),
                ss_pulse_detector_noise_level(&self->pulses), is_oxygen, pulse.found_at * (int64_t)self->state.step);
        }
    }
    while (done == 0);
}

static void ss_light_path_take_red(ss_light_path_t *self, const ss_channel_piece_t *red, int64_t index, int32_t infrared)
{
    int64_t at = index - red->first_index;
    if ((at < INT64_C(0)) || (at >= (int64_t)red->codes.length) || ((red->status.at[(int32_t)at] & SS_SAMPLE_FLAGS_UNUSABLE) != 0)) {
        return;
    }

    uint16_t settings = (uint16_t)ss_shift_right32(red->status.at[(int32_t)at], SS_SAMPLE_FLAGS_SETTINGS_SHIFT);
    if ((index != self->red_expected) || (settings != self->red_settings)) {
        ss_canceller_restart(&self->red_canceller);
        ss_oxygen_restart(&self->oxygen);
    }

    self->red_expected = index + INT64_C(1);
    self->red_settings = settings;
    int32_t code = red->codes.at[(int32_t)at] * self->red.polarity;
    int32_t light = self->has_dark ? ss_lit_slot_next(&self->red_slot, code, &self->dark) : (code - self->red.zero);
    if (self->movement.is_there) {
        light = ss_canceller_next(&self->red_canceller, light, &self->movement.reference);
    }

    ss_oxygen_next(&self->oxygen, light, infrared);
}

ss_light_path_colour_setup_t ss_light_path_colour_setup_make(const ss_channel_setup_t *channel)
{
    ss_light_path_colour_setup_t made = { 0 };
    made.polarity = channel->polarity;
    made.zero = channel->zero_code * channel->polarity;
    return made;
}
