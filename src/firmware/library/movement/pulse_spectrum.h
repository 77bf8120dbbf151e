/* Generated from SensorSim.Detection/Movement/PulseSpectrum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_PULSE_SPECTRUM_H
#define SS_MOVEMENT_PULSE_SPECTRUM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/half_ring.h"
#include "movement/rate_track.h"

/* Lowest rate of the light [Hz]. */
#define SS_PULSE_SPECTRUM_MINIMUM_RATE_HZ 20
/* Highest rate of the light [Hz]. */
#define SS_PULSE_SPECTRUM_MAXIMUM_RATE_HZ 800
#define SS_PULSE_SPECTRUM_LOWEST_BPM 28
#define SS_PULSE_SPECTRUM_HIGHEST_BPM 222
#define SS_PULSE_SPECTRUM_LEVEL_SHIFT 3
#define SS_PULSE_SPECTRUM_UNEXPLAINED_BITS 10
#define SS_PULSE_SPECTRUM_MOST_UNEXPLAINED 8192
#define SS_PULSE_SPECTRUM_HIGHEST_OF_USE 110
#define SS_PULSE_SPECTRUM_MOST_RESTING 3
#define SS_PULSE_SPECTRUM_SECOND_HARMONIC_CAP 1024
/* A margin of 350 is a factor of 2.6 between the powers that the two rates leave, four windows long. */
#define SS_PULSE_SPECTRUM_TRUSTED_MARGIN 350

/*
 * Heart rate from the spectrum of the light, movement or not: windows of 8 s, every 2 s.
 * What the canceller took off tells where movement is in the spectrum; a share u of it, found from window to window at the lines that the
 * pulse is not at, is expected to be left. For a rate speaks what the light has more than that, at the rate and at twice it. The track joins
 * windows and says how far it is ahead of any other rate: that is the trust. Input: light of up to 24 bits, up to 64 samples summed: 30 bits.
 * Product: see spectrum_pair; power × u 24 + 14 bits. Accumulator: 64 bits for those. Worst case: u clips at 8. Output: thousandths of a bpm,
 * at the time 4 s before the newest sample.
 */
struct ss_pulse_spectrum {
    ss_half_ring_t light;
    ss_half_ring_t artefact;
    ss_rate_track_t track;
    int32_t decimation;
    int32_t phase;
    int32_t light_sum;
    int32_t artefact_sum;
    int32_t level;
    int32_t hop;
    int32_t since;
    int32_t resting;
    int32_t filled;
    int32_t length;
    int32_t hann_step16;
    int32_t rate_milli_hz;
    int32_t first_bin;
    int32_t states;
    int32_t unexplained;
    bool is_fresh;
    /* Whether nobody asks for the rate: then only every fourth window is worked out, every 8 s, for the track to keep up. */
    bool is_resting;
    int32_t rate_milli_bpm; /* Heart rate [1/1000 bpm]; meaningful after a window. */
    uint8_t quality; /* How far the rate is ahead of any other, 0 to 255. */
    bool is_trusted; /* Whether the rate may be shown. */
};

/*
 * Prepares for a stream and drops all state.
 * light_rate_hz: Rate of the light [Hz], 20 to 800.
 * Returns: Whether the argument is allowed.
 */
bool ss_pulse_spectrum_start(ss_pulse_spectrum_t *self, int32_t light_rate_hz);

/* Forgets everything, as after a long gap. */
void ss_pulse_spectrum_restart(ss_pulse_spectrum_t *self);

/*
 * Takes the next sample.
 * light: Light, without the artefact where there is a canceller.
 * artefact: What the canceller took off; 0 without one.
 * Returns: Whether there is a new window.
 */
static inline bool ss_pulse_spectrum_next(ss_pulse_spectrum_t *self, int32_t light, int32_t artefact);

bool ss_pulse_spectrum_take(ss_pulse_spectrum_t *self);

static inline bool ss_pulse_spectrum_next(ss_pulse_spectrum_t *self, int32_t light, int32_t artefact)
{
    self->light_sum += light;
    self->artefact_sum += artefact;
    self->phase++;
    int32_t value = self->phase;
    return (value >= self->decimation) && ss_pulse_spectrum_take(self);
}

#endif
