/* Generated from SensorSim.Detection/Control/LevelSettings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_LEVEL_SETTINGS_H
#define SS_CONTROL_LEVEL_SETTINGS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Usual LED current at the start [µA]. */
#define SS_LEVEL_SETTINGS_USUAL_START_MICROAMP 10000
/* Usual smallest LED current [µA]. */
#define SS_LEVEL_SETTINGS_USUAL_LEAST_MICROAMP 500
/* Usual largest LED current [µA]. */
#define SS_LEVEL_SETTINGS_USUAL_MOST_MICROAMP 100000
/* Usual lower end of the band [%]. */
#define SS_LEVEL_SETTINGS_USUAL_LOW_PERCENT 35
/* Usual upper end of the band [%]. */
#define SS_LEVEL_SETTINGS_USUAL_HIGH_PERCENT 65

/*
 * Where the light is kept. Constant, no part of the state. Percentages are of the codes above that of no light.
 * Nothing here can hunt. A level outside of the band is led to the target; what does not come from the LED makes a step fall short, never
 * overshoot. Gain goes up only with room light of at most quiet_percent, which then doubles to less than bright_percent, where it goes down,
 * and while every other LED has room to halve twice.
 */
struct ss_level_settings {
    int32_t start_microamp; /* LED current at the start [µA]. */
    int32_t least_microamp; /* Smallest current that is asked for [µA], at least 1. */
    int32_t most_microamp; /* Largest current that is asked for [µA], up to 1,000,000. */
    int32_t least_gain_milli; /* Smallest gain that is asked for [1/1000], at most 1000; the start is 1000. */
    /* Largest gain that is asked for [1/1000], 1000 to 32,000; with both at 1000 no gain is asked for at all. */
    int32_t most_gain_milli;
    int32_t low_percent; /* Lower end of the band of the level [%]. */
    int32_t high_percent; /* Upper end of the band [%]. */
    int32_t target_percent; /* Where a level outside of the band is led [%]. */
    int32_t bright_percent; /* Room light above this lowers the gain [%], so that more of the range is left for the LED. */
    int32_t quiet_percent; /* Room light up to this lets the gain rise [%]; below half of bright_percent. */
    int32_t quiet_seconds; /* Seconds in a row that ask for more gain before it rises, up to 254. */
    int32_t shared_percent; /* Room light above this moves the band up by as much [%], so that the LED keeps a share of its own. */
    int32_t most_raise_percent; /* The most by which the band moves up [%]; with high_percent it stays below the rail. */
    int32_t patience_seconds; /* Seconds that a request may take to show, 1 to 80; then it counts as refused and may be made again. */
};

/* LED current only. */
static inline ss_level_settings_t ss_level_settings_current(void);

/* LED current, and gain where that does not reach. */
ss_level_settings_t ss_level_settings_current_and_gain(void);

static inline ss_level_settings_t ss_level_settings_current(void)
{
    return (ss_level_settings_t){ .start_microamp = SS_LEVEL_SETTINGS_USUAL_START_MICROAMP,
        .least_microamp = SS_LEVEL_SETTINGS_USUAL_LEAST_MICROAMP, .most_microamp = SS_LEVEL_SETTINGS_USUAL_MOST_MICROAMP,
        .least_gain_milli = 1000, .most_gain_milli = 1000, .low_percent = SS_LEVEL_SETTINGS_USUAL_LOW_PERCENT,
        .high_percent = SS_LEVEL_SETTINGS_USUAL_HIGH_PERCENT, .target_percent = 50, .bright_percent = 25, .quiet_percent = 10,
        .quiet_seconds = 30, .shared_percent = 30, .most_raise_percent = 25, .patience_seconds = 10 };
}

#endif
