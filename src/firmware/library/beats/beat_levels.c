/* Generated from SensorSim.Detection/Beats/BeatLevels.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_levels.h"
#include "fixed_point/median.h"
#include "fixed_point/threshold_scale.h"
#include "fixed_point/words.h"

static void ss_beat_levels_refresh(ss_beat_levels_t *self);

void ss_beat_levels_set_percent(ss_beat_levels_t *self, int32_t percent)
{
    self->more1024 = ss_threshold_scale_more1024(percent);
}

void ss_beat_levels_learn(ss_beat_levels_t *self, int32_t signal, int32_t noise)
{
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        self->signals.at[i] = ss_shift_right32(signal, 1);
        self->noises.at[i] = ss_shift_right32(noise, 1);
    }

    self->half_signal = ss_shift_right32(signal, 1);
    self->half_noise = ss_shift_right32(noise, 1);
    ss_beat_levels_refresh(self);
}

void ss_beat_levels_add_signal(ss_beat_levels_t *self, int32_t height)
{
    int32_t half = ss_shift_right32(height, 1);
    int32_t third = half / 3;
    self->signals.at[self->signal_at & (SS_WORD8_LENGTH - 1)] = (third > self->half_signal) ? (self->half_signal * 3) : half;
    self->signal_at++;
    self->half_signal = ss_median_of_up_to8(ss_view_int32_of(self->signals.at, 8));
    ss_beat_levels_refresh(self);
}

void ss_beat_levels_add_noise(ss_beat_levels_t *self, int32_t height)
{
    int32_t half = ss_shift_right32(height, 1);
    self->noises.at[self->noise_at & (SS_WORD8_LENGTH - 1)] = (half < self->half_signal) ? half : self->half_signal;
    self->noise_at++;
    self->half_noise = ss_median_of_up_to8(ss_view_int32_of(self->noises.at, 8));
    ss_beat_levels_refresh(self);
}

static void ss_beat_levels_refresh(ss_beat_levels_t *self)
{
    int32_t span = (self->half_signal > self->half_noise) ? (self->half_signal - self->half_noise) : 0;
    int32_t low = 5 * ss_shift_right32(span, 3);
    int32_t high = 5 * ss_shift_right32(span, 2);
    int32_t above = (self->half_noise > low) ? self->half_noise : low;
    self->threshold = ss_threshold_scale_apply((2 * self->half_noise) + ((above < high) ? above : high), self->more1024);
    int32_t over_noise = (2 * self->half_noise) + ss_shift_right32(self->half_noise, 2);
    over_noise = ss_threshold_scale_apply(over_noise, self->more1024);
    self->look_back_threshold = (ss_shift_right32(self->threshold, 1) > over_noise) ? ss_shift_right32(self->threshold, 1) : over_noise;
}
