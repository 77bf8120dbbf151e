/* Generated from SensorSim.Detection/Control/LevelSettings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/level_settings.h"

ss_level_settings_t ss_level_settings_current_and_gain(void)
{
    ss_level_settings_t changed = ss_level_settings_current();
    changed.least_gain_milli = 250;
    changed.most_gain_milli = 8000;
    return changed;
}
