/* Generated from SensorSim.Detection/Control/GainWish.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_GAIN_WISH_H
#define SS_CONTROL_GAIN_WISH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* What one channel would like of the gain that all optical channels share. */
enum {
    SS_GAIN_WISH_NONE = 0, /* It does well as it is. */
    SS_GAIN_WISH_UP = 1, /* Twice. */
    SS_GAIN_WISH_DOWN = 2 /* Half. */
};

#endif
