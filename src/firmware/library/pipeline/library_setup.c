/* Generated from SensorSim.Detection/Pipeline/LibrarySetup.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pipeline/channel_role.h"
#include "pipeline/library_setup.h"

ss_channel_role_t ss_library_setup_light(const ss_library_setup_t *self)
{
    ss_channel_setup_t value = ss_library_setup_at(self, SS_CHANNEL_ROLE_INFRARED);
    ss_channel_role_t chosen_2;
    if (ss_channel_setup_is_there(&value)) {
        chosen_2 = SS_CHANNEL_ROLE_INFRARED;
    }
    else {
        ss_channel_setup_t value_2 = ss_library_setup_at(self, SS_CHANNEL_ROLE_RED);
        ss_channel_role_t chosen;
        if (ss_channel_setup_is_there(&value_2)) {
            chosen = SS_CHANNEL_ROLE_RED;
        }
        else {
            ss_channel_setup_t value_3 = ss_library_setup_at(self, SS_CHANNEL_ROLE_GREEN);
            chosen = (ss_channel_role_t)(ss_channel_setup_is_there(&value_3) ? SS_CHANNEL_ROLE_GREEN : SS_CHANNEL_ROLE_NONE);
        }
        chosen_2 = chosen;
    }
    return chosen_2;
}
