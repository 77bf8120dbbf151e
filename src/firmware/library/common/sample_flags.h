/* Generated from SensorSim.Detection/SampleFlags.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_COMMON_SAMPLE_FLAGS_H
#define SS_COMMON_SAMPLE_FLAGS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* The electrode on the positive input has no contact. */
#define SS_SAMPLE_FLAGS_LEAD_OFF_POSITIVE 1
/* The electrode on the negative input has no contact. */
#define SS_SAMPLE_FLAGS_LEAD_OFF_NEGATIVE 2
/* The third electrode has no contact. */
#define SS_SAMPLE_FLAGS_LEAD_OFF_THIRD 4
/* The amplifier is saturated. */
#define SS_SAMPLE_FLAGS_SATURATED 8
/* The converter's range was left; the code is clamped. */
#define SS_SAMPLE_FLAGS_OVER_RANGE 16
/* Samples were lost in the sensor's buffer before this one. */
#define SS_SAMPLE_FLAGS_BUFFER_OVERFLOW 32
/* The sensor's own circuit saw a pacing spike. */
#define SS_SAMPLE_FLAGS_PACING_SPIKE 64
/* The optical sensor does not touch the skin. */
#define SS_SAMPLE_FLAGS_NO_CONTACT 128
/* An electrode has no contact. */
#define SS_SAMPLE_FLAGS_LEAD_OFF 7
/* The value is not that of the signal. */
#define SS_SAMPLE_FLAGS_CLIPPED 24
/* Such samples count as a gap. */
#define SS_SAMPLE_FLAGS_UNUSABLE 159
/* Where the number of the settings begins: it goes up by one with each change of a setting of the channel, and wraps after 255. */
#define SS_SAMPLE_FLAGS_SETTINGS_SHIFT 8

#endif
