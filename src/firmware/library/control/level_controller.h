/* Generated from SensorSim.Detection/Control/LevelController.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_LEVEL_CONTROLLER_H
#define SS_CONTROL_LEVEL_CONTROLLER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "control/control_request.h"
#include "control/lamp.h"
#include "control/second_mean.h"

#define SS_LEVEL_CONTROLLER_LAMPS 3

struct ss_level_controller_lamps3 {
    ss_lamp_t at[3];
};

/*
 * Keeps the received light of up to three LEDs inside the converter's range by asking for LED currents and for the gain.
 * Each second of each lit channel gives its mean level. Room light is the mean of the dark channel over its latest whole second; without a
 * dark channel it is taken as none. The gain is one for all optical channels, the dark one too, so that they stay comparable. Samples come in
 * order of tick and channel. Input: codes of up to 24 bits with their status words. Product: see lamp. Accumulator: 32 bits a sample, 64 bits
 * a second. Worst case: see lamp. Output: at most one request a sample, and one for each lamp and second.
 */
struct ss_level_controller {
    ss_level_controller_lamps3_t lamps;
    ss_second_mean_t dark;
    int32_t last_dark;
    ss_control_request_t request;
};

/* The request of the sample for which next gave true. */
static inline ss_control_request_t ss_level_controller_request(const ss_level_controller_t *self);

/* Forgets all channels. */
void ss_level_controller_start(ss_level_controller_t *self);

/*
 * Adds a channel, before the first sample.
 * role: Red, infrared, green or dark.
 * rate_hz: Sampling rate [Hz], 1 to 2000.
 * zero_code: The code of no light.
 * maximum_code: The highest code.
 * Returns: Whether the channel can be watched; one that cannot is left alone.
 */
bool ss_level_controller_add(ss_level_controller_t *self, ss_control_role_t role, int32_t rate_hz, int32_t zero_code, int32_t maximum_code);

/*
 * Takes the next sample.
 * settings: Settings.
 * role: Of which channel.
 * code: Its code.
 * status: Its status word.
 * index: Its index, rising.
 * Returns: Whether there is a request.
 */
bool ss_level_controller_next(ss_level_controller_t *self, const ss_level_settings_t *settings, ss_control_role_t role, int32_t code,
    uint16_t status, int64_t index);

static inline ss_control_request_t ss_level_controller_request(const ss_level_controller_t *self)
{
    return self->request;
}

#endif
