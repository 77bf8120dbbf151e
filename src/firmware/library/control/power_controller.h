/* Generated from SensorSim.Detection/Control/PowerController.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_POWER_CONTROLLER_H
#define SS_CONTROL_POWER_CONTROLLER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "control/control_request.h"

#define SS_POWER_CONTROLLER_AXES 3
#define SS_POWER_CONTROLLER_LOST_SECONDS 3

struct ss_power_controller_words3 {
    int32_t at[3];
};

/*
 * Saves light while the accelerometer sees no movement: lower rate at rest, off with looks in sleep, full rate with movement.
 * A second is still when the codes of each axis lie close together, and moves when those of one lie further apart than a larger limit or an
 * axis has no sample: what is not seen is not still. Between the limits a state is kept; from full rate only still seconds without a break
 * lead to rest. So a state lasts as long as its seconds say, whatever the movement: no hunting. Input: codes of up to 24 bits of up to three
 * axes of one rate. Product: none. Accumulator: none; lowest and highest code, compared for each sample. Worst case: spread 2^25. Output: at
 * most one request a second.
 */
struct ss_power_controller {
    ss_power_controller_words3_t lowest;
    ss_power_controller_words3_t highest;
    ss_control_request_t request;
    int32_t second;
    int32_t still_codes;
    int32_t moving_codes;
    uint16_t rate_hz;
    uint16_t still;
    uint16_t timer;
    uint16_t decimation;
    uint8_t axes;
    uint8_t seen;
    bool is_asleep;
    bool is_looking;
};

/* The request of the call that gave true. */
static inline ss_control_request_t ss_power_controller_request(const ss_power_controller_t *self);

/* Whether the light sleeps, looks included. */
static inline bool ss_power_controller_is_asleep(const ss_power_controller_t *self);

/*
 * Starts anew, awake and at full rate.
 * rate_hz: Rate of the axes [Hz], 1 to 65,535.
 * axes: Which of the three axes there are: bits 0 to 2; none: nothing is ever asked for.
 * still_codes: Largest spread of an axis within a still second [codes].
 * moving_codes: Spread beyond which a second moves [codes], not below the other.
 */
void ss_power_controller_start(ss_power_controller_t *self, int32_t rate_hz, int32_t axes, int32_t still_codes, int32_t moving_codes);

/*
 * Takes the next sample of an axis.
 * settings: Settings.
 * axis: 0 to 2.
 * code: Its code.
 * index: Its index, not falling.
 * Returns: Whether there is a request.
 */
bool ss_power_controller_next(ss_power_controller_t *self, const ss_power_settings_t *settings, int32_t axis, int32_t code, int64_t index);

/*
 * Says how late it is, so that an accelerometer that falls silent wakes the light. Call it every now and then.
 * settings: Settings.
 * second: Whole seconds since sample 0.
 * Returns: Whether there is a request.
 */
bool ss_power_controller_pass_time(ss_power_controller_t *self, const ss_power_settings_t *settings, int64_t second);

static inline ss_control_request_t ss_power_controller_request(const ss_power_controller_t *self)
{
    return self->request;
}

static inline bool ss_power_controller_is_asleep(const ss_power_controller_t *self)
{
    return self->is_asleep;
}

#endif
