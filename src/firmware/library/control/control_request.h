/* Generated from SensorSim.Detection/Control/ControlRequest.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_CONTROL_REQUEST_H
#define SS_CONTROL_CONTROL_REQUEST_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* A wish to change a setting of the sensor. It may be carried out late, clamped, or not at all. */
struct ss_control_request {
    ss_control_role_t role; /* Of which channel. */
    ss_control_setting_t setting; /* Which setting. */
    int32_t value_milli; /* Wanted value, in thousandths of the setting's unit. */
};

/* A wish to change a setting of the sensor. It may be carried out late, clamped, or not at all. */
ss_control_request_t ss_control_request_make(ss_control_role_t role, ss_control_setting_t setting, int32_t value_milli);

#endif
