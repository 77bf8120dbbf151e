/* Generated from SensorSim.Detection/Control/ControlSetting.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_CONTROL_SETTING_H
#define SS_CONTROL_CONTROL_SETTING_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* What can be asked for, with the unit of its value. */
enum {
    SS_CONTROL_SETTING_LED_CURRENT = 0, /* LED current [1/1000 mA]. */
    SS_CONTROL_SETTING_PULSE_WIDTH = 1, /* LED pulse width [1/1000 µs]. */
    SS_CONTROL_SETTING_GAIN = 2, /* Gain of the receiver [1/1000]. */
    SS_CONTROL_SETTING_DECIMATION = 3 /* Decimation of the sampling rate [1/1000], whole; 0 switches off. */
};

#endif
