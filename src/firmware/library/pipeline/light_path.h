/* Generated from SensorSim.Detection/Pipeline/LightPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_LIGHT_PATH_H
#define SS_PIPELINE_LIGHT_PATH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "ambient/dark_subtraction.h"
#include "ambient/lit_slot.h"
#include "movement/canceller.h"
#include "movement/pulse_spectrum.h"
#include "pipeline/channel_state.h"
#include "pipeline/movement_path.h"
#include "pulses/pulse_detector.h"
#include "readings/oxygen.h"

/* How codes become light above zero. */
struct ss_light_path_colour_setup {
    int32_t polarity;
    int32_t zero;
};

/* From light to pulses: takes off the room's light and the movement's artefact, leaves out what cannot be used. */
struct ss_light_path {
    ss_channel_state_t state;
    ss_movement_path_t movement;
    ss_oxygen_t oxygen;
    ss_pulse_detector_t pulses;
    ss_dark_subtraction_t dark;
    ss_lit_slot_t red_slot;
    ss_canceller_t canceller;
    ss_canceller_t red_canceller;
    ss_pulse_spectrum_t spectrum;
    ss_channel_role_t role;
    ss_light_path_colour_setup_t main;
    ss_light_path_colour_setup_t red;
    int32_t dark_step;
    int32_t dark_polarity;
    int32_t last;
    int32_t longest_bridge;
    uint16_t red_settings;
    int64_t red_expected;
    bool has_dark;
    bool has_spectrum;
    bool has_oxygen;
};

/* Whether nobody asks for the rate of the spectrum. */
void ss_light_path_set_is_spectrum_resting(ss_light_path_t *self, bool value);

/* Light of the room [codes]. */
static inline int32_t ss_light_path_ambient_codes(const ss_light_path_t *self);

/* How much it moves [codes]. */
static inline int32_t ss_light_path_swing_codes(const ss_light_path_t *self);

bool ss_light_path_start(ss_light_path_t *self, const ss_library_setup_t *setup, const ss_oxygen_table_t *table, const ss_tuning_t *tuning);

/*
 * Takes the samples of a slice.
 * light: The light that pulses are read from.
 * beside: What goes beside it.
 * last_tick: The last tick of the slice.
 * found: Gets what was found.
 */
void ss_light_path_take(ss_light_path_t *self, ss_channel_piece_t light, ss_beside_t *beside, int64_t last_tick, ss_found_list_t *found);

/* How codes become light above zero. */
ss_light_path_colour_setup_t ss_light_path_colour_setup_make(const ss_channel_setup_t *channel);

static inline int32_t ss_light_path_ambient_codes(const ss_light_path_t *self)
{
    return self->has_dark ? ss_dark_subtraction_ambient_codes(&self->dark) : 0;
}

static inline int32_t ss_light_path_swing_codes(const ss_light_path_t *self)
{
    return self->has_dark ? ss_dark_subtraction_swing_codes(&self->dark) : 0;
}

#endif
