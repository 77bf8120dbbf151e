/* Generated from SensorSim.Detection/Pipeline/ChannelState.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/sample_flags.h"
#include "pipeline/channel_state.h"

ss_channel_state_t ss_channel_state_make(int32_t ticks_per_sample)
{
    ss_channel_state_t made = { 0 };
    ss_channel_state_t *const self = &made;
    self->step = ticks_per_sample;
    self->expected = -INT64_C(1);
    return made;
}

int32_t ss_channel_state_count_alike(ss_channel_state_t *self, ss_view_uint16_t status)
{
    uint16_t first = (uint16_t)(status.at[0] & SS_CHANNEL_STATE_SEEN);
    int32_t count = 1;
    while ((count < status.length) && ((status.at[count] & SS_CHANNEL_STATE_SEEN) == first)) {
        count++;
    }

    self->count += count;
    self->flags = (uint16_t)(self->flags | (uint16_t)(first & SS_SAMPLE_FLAGS_UNUSABLE));
    self->is_usable = (first & SS_SAMPLE_FLAGS_UNUSABLE) == 0;
    self->has_usable = self->has_usable | self->is_usable;
    return count;
}

bool ss_channel_state_take_settings(ss_channel_state_t *self, uint16_t status)
{
    uint16_t settings = (uint16_t)ss_shift_right32(status, SS_SAMPLE_FLAGS_SETTINGS_SHIFT);
    bool is_change = (self->expected >= INT64_C(0)) && (settings != self->settings);
    self->settings = settings;
    return is_change;
}

void ss_channel_state_looked(ss_channel_state_t *self)
{
    self->flags = 0;
    self->count = 0;
    self->has_usable = false;
}
