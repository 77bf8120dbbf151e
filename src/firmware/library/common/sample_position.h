/* Generated from SensorSim.Detection/SamplePosition.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_COMMON_SAMPLE_POSITION_H
#define SS_COMMON_SAMPLE_POSITION_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* A place between two samples of one channel. */
struct ss_sample_position {
    int64_t sample; /* Index of the sample at or before the place. */
    uint8_t fraction256; /* How far after it [1/256 of a sampling interval], 0 to 255. */
};

/* A place between two samples of one channel. */
ss_sample_position_t ss_sample_position_make(int64_t sample, uint8_t fraction256);

/* The place counted from sample 0 [1/256 of a sampling interval]. */
static inline int64_t ss_sample_position_in256(ss_sample_position_t self);

/*
 * The place that lies a number of 1/256 sampling intervals after sample 0.
 * position256: The count; may be negative.
 */
ss_sample_position_t ss_sample_position_from256(int64_t position256);

static inline int64_t ss_sample_position_in256(ss_sample_position_t self)
{
    return (self.sample * INT64_C(256)) + (int64_t)self.fraction256;
}

#endif
