/* Generated from SensorSim.Detection/Control/ControlRole.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_CONTROL_ROLE_H
#define SS_CONTROL_CONTROL_ROLE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Which channel a request is for, whatever its number in a stream. */
enum {
    SS_CONTROL_ROLE_RED = 0, /* Red light. */
    SS_CONTROL_ROLE_INFRARED = 1, /* Infrared light. */
    SS_CONTROL_ROLE_GREEN = 2, /* Green light. */
    SS_CONTROL_ROLE_DARK = 3, /* The slot without a lit LED. */
    SS_CONTROL_ROLE_ALL_LIGHT = 4 /* Every optical channel that there is, the dark one too. */
};

#endif
