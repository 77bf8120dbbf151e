/* Generated from SensorSim.Detection/Control/ControlRequest.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/control_request.h"
#include "control/control_role.h"
#include "control/control_setting.h"

ss_control_request_t ss_control_request_make(ss_control_role_t role, ss_control_setting_t setting, int32_t value_milli)
{
    ss_control_request_t made = { 0 };
    made.role = role;
    made.setting = setting;
    made.value_milli = value_milli;
    return made;
}
