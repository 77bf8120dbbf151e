/* Generated from SensorSim.Detection/Control/PowerSettings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/power_settings.h"

ss_power_settings_t ss_power_settings_sleeper(void)
{
    ss_power_settings_t changed = ss_power_settings_switch_off();
    changed.moving_mg = 45;
    changed.rest_seconds = 60;
    changed.sleep_seconds = 60;
    changed.look_every_seconds = 260;
    changed.look_seconds = 40;
    return changed;
}
