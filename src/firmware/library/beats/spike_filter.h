/* Generated from SensorSim.Detection/Beats/SpikeFilter.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_SPIKE_FILTER_H
#define SS_BEATS_SPIKE_FILTER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_words.h"

#define SS_SPIKE_FILTER_MASK 31
#define SS_SPIKE_FILTER_MEAN_BITS 10

/*
 * Stage before the others, at the full rate: pacing spikes are cut out and a straight line is put in their place.
 * From 500 Hz on a spike is found in the signal itself: a place that stands out of its neighbours 4 ms away on both sides as much as out of
 * those 8 ms away, or nearly so. The top of any wave, a parabola, stands out four times as much of the farther ones, a triangle twice. Below
 * 500 Hz a spike is one or two samples long and no shape is left to see; there only the sensor's own circuit tells. Input: codes of 24 bits.
 * Product: none. Accumulator: 32 bits; mean excess Q21.10 with excesses clipped at 2^20. Worst case: differences of 25 bits. Output: codes,
 * delayed by delay samples; lines rounded toward minus infinity.
 */
struct ss_spike_filter {
    ss_word32_t held;
    int32_t at;
    int32_t arm;
    int32_t arm_bits;
    int32_t floor;
    int32_t mean;
    int32_t since_flag;
    int32_t delay; /* Samples from input to output. */
    int32_t age; /* How many samples before the newest the spike just found lies. */
};

/*
 * Sets lengths.
 * rate_hz: Rate [Hz].
 * codes_per_mv256: Codes in a millivolt, times 256; 0 when unknown.
 */
void ss_spike_filter_start(ss_spike_filter_t *self, int32_t rate_hz, int32_t codes_per_mv256);

/*
 * Behaves as if a constant had always come in.
 * value: The constant.
 */
void ss_spike_filter_restart(ss_spike_filter_t *self, int32_t value);

/*
 * Takes the next sample.
 * code: The sample.
 * is_flagged: Whether the sensor's circuit saw a spike.
 * output: The sample delay before it, without spikes.
 * Returns: Whether a spike was found.
 */
static inline bool ss_spike_filter_next(ss_spike_filter_t *self, int32_t code, bool is_flagged, int32_t *output);

/* Flagged samples and the two after them become a line once the fourth has come. */
bool ss_spike_filter_flagged(ss_spike_filter_t *self, int32_t at, bool is_flagged);

bool ss_spike_filter_search(ss_spike_filter_t *self, int32_t at);

static inline bool ss_spike_filter_next(ss_spike_filter_t *self, int32_t code, bool is_flagged, int32_t *output)
{
    int32_t at = self->at;
    self->held.at[at & SS_SPIKE_FILTER_MASK] = code;
    bool is_spike = (self->arm != 0) && ss_spike_filter_search(self, at);
    if (is_flagged || (self->since_flag < 3)) {
        is_spike = is_spike | ss_spike_filter_flagged(self, at, is_flagged);
    }

    (*output) = self->held.at[(at - self->delay) & SS_SPIKE_FILTER_MASK];
    self->at = (at + 1) & SS_SPIKE_FILTER_MASK;
    return is_spike;
}

#endif
