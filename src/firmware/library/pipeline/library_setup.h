/* Generated from SensorSim.Detection/Pipeline/LibrarySetup.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_LIBRARY_SETUP_H
#define SS_PIPELINE_LIBRARY_SETUP_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/common_clock.h"
#include "pipeline/channel_role.h"

/* Channels held. */
#define SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH 8

/* What the library must know of one channel before it starts. A rate of 0: there is no such channel. */
struct ss_channel_setup {
    int32_t rate_hz; /* Nominal sampling rate [Hz]. */
    int32_t ticks_per_sample; /* Ticks of the common clock from one sample to the next. */
    int32_t polarity; /* +1 when a rising physical value raises the code, −1 when it lowers it. */
    int32_t zero_code; /* The code that stands for physical zero. */
    int32_t codes_per_unit256; /* Codes in one unit of the channel (mV of ECG, g of acceleration) times 256; 0: not known. */
    int64_t delay256; /* Delay of the chain as declared: a body event at time t shows at t + delay [1/256 tick]. */
};

/* Eight channels, held in place as in a C struct. */
struct ss_library_setup_channel_setups {
    ss_channel_setup_t at[8];
};

/* What the library must know of a stream before it starts. */
struct ss_library_setup {
    ss_common_clock_t clock; /* The clock that the channels share. */
    ss_library_setup_channel_setups_t channels; /* The channels, by channel_role. */
};

/* Whether the stream has the channel. */
static inline bool ss_channel_setup_is_there(const ss_channel_setup_t *self);

/* The light that pulses are read from: infrared, without it red, without that green. */
ss_channel_role_t ss_library_setup_light(const ss_library_setup_t *self);

/* The setup of a channel. */
static inline ss_channel_setup_t ss_library_setup_at(const ss_library_setup_t *self, ss_channel_role_t role);

static inline bool ss_channel_setup_is_there(const ss_channel_setup_t *self)
{
    return self->rate_hz > 0;
}

static inline ss_channel_setup_t ss_library_setup_at(const ss_library_setup_t *self, ss_channel_role_t role)
{
    return self->channels.at[role];
}

#endif
