/* Generated from SensorSim.Detection/Beats/BeatWindows.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_windows.h"
#include "pipeline/tuning.h"

static int16_t ss_beat_windows_samples(const ss_beat_windows_t *self, int32_t rate_hz, int32_t milliseconds);

ss_beat_windows_t ss_beat_windows_for_rate_2(int32_t rate_hz, int32_t codes_per_mv256)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    return ss_beat_windows_for_rate_3(rate_hz, codes_per_mv256, &usual_value);
}

ss_beat_windows_t ss_beat_windows_for_rate_3(int32_t rate_hz, int32_t codes_per_mv256, const ss_tuning_t *tuning)
{
    ss_beat_windows_t w = (ss_beat_windows_t){ .decimation = (int16_t)((rate_hz + SS_BEAT_WINDOWS_MAXIMUM_WORKING_HZ
        - 1) / SS_BEAT_WINDOWS_MAXIMUM_WORKING_HZ) };
    w.first_sum = ss_beat_windows_samples(&w, rate_hz, 20);
    w.second_sum = ss_beat_windows_samples(&w, rate_hz, 17);
    w.arm = ss_beat_windows_samples(&w, rate_hz, 28);
    w.integration = ss_beat_windows_samples(&w, rate_hz, 100);
    w.hold = ss_beat_windows_samples(&w, rate_hz, 120);
    w.refractory = ss_beat_windows_samples(&w, rate_hz, tuning->beat_refractory_ms);
    w.wait = ss_beat_windows_samples(&w, rate_hz, 470);
    w.near_ = ss_beat_windows_samples(&w, rate_hz, 300);
    w.edge = ss_beat_windows_samples(&w, rate_hz, 60);
    w.shape_step = ss_beat_windows_samples(&w, rate_hz, 9);
    w.shape_reach = (int16_t)((ss_beat_windows_samples(&w, rate_hz, 85) + ss_shift_right32(w.shape_step, 1)) / w.shape_step);
    int32_t steps_per_second = rate_hz / (w.decimation * w.shape_step);
    w.wide_spread = (((16 * 1024 * steps_per_second) / 1000) * steps_per_second) / 1000;
    /* what the survey has room for */
    w.shape_reach = (int16_t)((w.shape_reach > 8) ? 8 : w.shape_reach);
    w.bridge = (int16_t)ss_shift_right32(rate_hz, 2);
    w.tail = (int16_t)ss_shift_right32(rate_hz, 1);
    w.paced_reach = (int16_t)ss_shift_right32(rate_hz, 2);
    w.t_wave = ss_beat_windows_samples(&w, rate_hz, tuning->beat_t_wave_ms);
    w.learning_block = ss_beat_windows_samples(&w, rate_hz, 500);
    w.silence = ss_beat_windows_samples(&w, rate_hz, 3000);
    w.slope_arm = ss_beat_windows_samples(&w, rate_hz, 8);
    w.steep_reach = ss_beat_windows_samples(&w, rate_hz, 90);
    w.qrs_reach = ss_beat_windows_samples(&w, rate_hz, 110);
    w.near_reach = ss_beat_windows_samples(&w, rate_hz, 16);
    w.quiet = ss_beat_windows_samples(&w, rate_hz, 40);
    w.peak_arm = ss_beat_windows_samples(&w, rate_hz, 4);
    w.delay = (int16_t)(((w.first_sum + w.second_sum + w.integration - 3) / 2) + w.arm);

    /* Codes of 24 bits: 2^23 × gain of the sums × 4 (second difference) must stay within 2^31, so the gain within 2^6. */
    int32_t gain = w.first_sum * w.second_sum * w.decimation;
    while (gain > 64) {
        gain = ss_shift_right32(gain, 1);
        w.sum_shift++;
    }

    /* A narrow QRS of 1 mV makes a hump of about 0.64 × codes per millivolt × gain of the sums × integration (measured on the generator's). */
    int32_t twentieth = codes_per_mv256 / 5120;
    int32_t reach = ss_shift_right32(w.first_sum * w.second_sum * w.decimation, w.sum_shift) * w.integration;
    w.least = (twentieth > (INT32_MAX / reach)) ? INT32_MAX : (twentieth * reach);
    return w;
}

static int16_t ss_beat_windows_samples(const ss_beat_windows_t *self, int32_t rate_hz, int32_t milliseconds)
{
    /* The one division by a rate; at start-up only. */
    int32_t samples = ((milliseconds * rate_hz) + (500 * self->decimation)) / (1000 * self->decimation);
    return (int16_t)((samples < 1) ? 1 : samples);
}
