/* Generated from SensorSim.Detection/Control/PowerSettings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_POWER_SETTINGS_H
#define SS_CONTROL_POWER_SETTINGS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* When the light may rest or sleep. Constant, no part of the state. Seconds are those of the accelerometer. */
struct ss_power_settings {
    int32_t still_mg; /* Largest spread of an axis within a still second [mg]. */
    int32_t moving_mg; /* Spread beyond which a second moves [mg], at least still_mg. Between the two nothing changes. */
    int32_t rest_seconds; /* Still seconds in a row after which the light rests, 1 to 65,000. */
    int32_t rest_decimation; /* Decimation of the light at rest, 1 to 1000; 1: no difference. */
    int32_t sleep_seconds; /* Still seconds in a row after which the light sleeps, at least rest_seconds, up to 65,000. */
    int32_t sleep_decimation; /* Decimation of the light asleep, 0 to 1000; 0: off. */
    int32_t look_every_seconds; /* Seconds of sleep before the light is put on to look, up to 65,000; 0: never. */
    int32_t look_seconds; /* Seconds that a look lasts, up to 65,000. */
};

/* Off after ten still seconds, on with the first that is not: for a device that is put away. */
static inline ss_power_settings_t ss_power_settings_switch_off(void);

/*
 * For a sleeper: off after a still minute, on for 40 s in five minutes (8 to 10 s to learn the signal and 30 s of it) and with movement. The
 * rate is never lowered, because the library works on the base rate only.
 */
ss_power_settings_t ss_power_settings_sleeper(void);

static inline ss_power_settings_t ss_power_settings_switch_off(void)
{
    return (ss_power_settings_t){ .still_mg = 30, .moving_mg = 30, .rest_seconds = 10, .rest_decimation = 1, .sleep_seconds = 10,
        .sleep_decimation = 0 };
}

#endif
