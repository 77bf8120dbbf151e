/* Generated from SensorSim.Detection/Pulses/PulseWindows.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "pipeline/tuning.h"
#include "pulses/cubic_fits.h"
#include "pulses/pulse_windows.h"

static int16_t ss_pulse_windows_samples(const ss_pulse_windows_t *self, int32_t rate_hz, int32_t milliseconds, int32_t least);

ss_pulse_windows_t ss_pulse_windows_for_rate_1(int32_t rate_hz)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    return ss_pulse_windows_for_rate_2(rate_hz, &usual_value);
}

ss_pulse_windows_t ss_pulse_windows_for_rate_2(int32_t rate_hz, const ss_tuning_t *tuning)
{
    ss_pulse_windows_t w = (ss_pulse_windows_t){ .decimation = (int16_t)((rate_hz < 200) ? 1 : (rate_hz / 100)) };
    w.watch_arm = ss_pulse_windows_samples(&w, rate_hz, 60, 1);
    w.fit_arm = ss_pulse_windows_samples(&w, rate_hz, 50, 2);
    w.fit_arm1 = ss_pulse_windows_samples(&w, rate_hz, 33, 2);
    w.fit_arm2 = ss_pulse_windows_samples(&w, rate_hz, 20, 2);
    w.steep_reach = ss_pulse_windows_samples(&w, rate_hz, 10, 1);
    w.minimum_reach = ss_pulse_windows_samples(&w, rate_hz, 400, 4);
    w.refractory = ss_pulse_windows_samples(&w, rate_hz, tuning->pulse_refractory_ms, 1);
    w.longest_rise = ss_pulse_windows_samples(&w, rate_hz, 400, 2);
    w.learning_block = ss_pulse_windows_samples(&w, rate_hz, 500, 1);
    w.noise_block = ss_pulse_windows_samples(&w, rate_hz, 100, 2);
    w.silence = ss_pulse_windows_samples(&w, rate_hz, 1500, 1);
    w.long_silence = ss_pulse_windows_samples(&w, rate_hz, 4000, 1);
    w.first_interval = ss_pulse_windows_samples(&w, rate_hz, 750, 1);
    w.early = ss_pulse_windows_samples(&w, rate_hz, 420, 1);
    w.afterwards = ss_pulse_windows_samples(&w, rate_hz, 500, 1);
    w.refused_apart = ss_pulse_windows_samples(&w, rate_hz, 2500, 1);
    w.settling = (int16_t)(ss_pulse_windows_samples(&w, rate_hz, 50, 1) * w.decimation);
    w.short_bridge = (int16_t)((rate_hz + 50) / 100);
    w.bridge = (int16_t)(ss_pulse_windows_samples(&w, rate_hz, 250, 1) * w.decimation);
    return w;
}

int32_t ss_pulse_windows_arm(const ss_pulse_windows_t *self, int32_t choice)
{
    return (choice == 0) ? self->fit_arm : ((choice == 1) ? self->fit_arm1 : self->fit_arm2);
}

int32_t ss_pulse_windows_fit_for(const ss_pulse_windows_t *self, int32_t rise16)
{
    if (rise16 == 0) {
        return 1;
    }

    /* arm <= 0.7 rise: arm × 16 × 10 <= 7 × rise16. */
    int32_t limit = 7 * rise16;
    return ((self->fit_arm * 160) <= limit) ? 0 : (((self->fit_arm1 * 160) <= limit) ? 1 : SS_CUBIC_FITS_SHORTEST);
}

int32_t ss_pulse_windows_reach_for(const ss_pulse_windows_t *self, int32_t rise16)
{
    int32_t reach = ss_shift_floor(rise16, 4) + ss_shift_floor(rise16, 5) + self->fit_arm;
    return ((rise16 == 0) || (reach > self->minimum_reach)) ? self->minimum_reach : reach;
}

static int16_t ss_pulse_windows_samples(const ss_pulse_windows_t *self, int32_t rate_hz, int32_t milliseconds, int32_t least)
{
    /* The one division by a rate; at start-up only. */
    int32_t samples = ((milliseconds * rate_hz) + (500 * self->decimation)) / (1000 * self->decimation);
    return (int16_t)((samples < least) ? least : samples);
}
