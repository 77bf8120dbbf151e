/* Generated from SensorSim.Detection/Pipeline/ChannelRole.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_CHANNEL_ROLE_H
#define SS_PIPELINE_CHANNEL_ROLE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* What a channel carries; the number is its place in library_setup and library_input. */
enum {
    SS_CHANNEL_ROLE_ECG = 0, /* ECG. */
    SS_CHANNEL_ROLE_RED = 1, /* Red light received. */
    SS_CHANNEL_ROLE_INFRARED = 2, /* Infrared light received. */
    SS_CHANNEL_ROLE_GREEN = 3, /* Green light received. */
    SS_CHANNEL_ROLE_DARK = 4, /* Light received while no LED is on. */
    SS_CHANNEL_ROLE_ACCEL_X = 5, /* Acceleration, first axis. */
    SS_CHANNEL_ROLE_ACCEL_Y = 6, /* Acceleration, second axis. */
    SS_CHANNEL_ROLE_ACCEL_Z = 7, /* Acceleration, third axis. */
    SS_CHANNEL_ROLE_NONE = 255 /* No channel. */
};

#endif
