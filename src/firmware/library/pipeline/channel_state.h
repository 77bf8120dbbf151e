/* Generated from SensorSim.Detection/Pipeline/ChannelState.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_CHANNEL_STATE_H
#define SS_PIPELINE_CHANNEL_STATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_CHANNEL_STATE_SEEN 65439

/* Follows the samples of one channel: which index comes next, and what was unusable since the gates last looked. */
struct ss_channel_state {
    int32_t step; /* Ticks from one sample to the next; 0: there is no such channel. */
    int64_t expected; /* Index that follows the last usable sample; −1 before the first. */
    uint16_t flags; /* Flags of unusable samples since the gates last looked. */
    int32_t count; /* Samples since the gates last looked, usable or not. */
    bool is_usable; /* Whether the latest sample was usable. */
    bool has_usable; /* Whether any sample was usable since the gates last looked. */
    uint16_t settings; /* Number of the settings, as the last usable sample had it. */
};

ss_channel_state_t ss_channel_state_make(int32_t ticks_per_sample);

/*
 * How many of the next samples are alike: usable or not for the same reason, under the same settings.
 * status: Status words, at least one.
 */
int32_t ss_channel_state_count_alike(ss_channel_state_t *self, ss_view_uint16_t status);

/*
 * Takes over the settings of a usable sample.
 * status: Its status word.
 * Returns: Whether they changed since the last usable sample.
 */
bool ss_channel_state_take_settings(ss_channel_state_t *self, uint16_t status);

/* The gates have looked. */
void ss_channel_state_looked(ss_channel_state_t *self);

#endif
