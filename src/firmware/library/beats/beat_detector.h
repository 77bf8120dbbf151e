/* Generated from SensorSim.Detection/Beats/BeatDetector.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_DETECTOR_H
#define SS_BEATS_BEAT_DETECTOR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/band_pass.h"
#include "beats/beat_event.h"
#include "beats/beat_gaps.h"
#include "beats/beat_judge.h"
#include "beats/beat_learning.h"
#include "beats/beat_levels.h"
#include "beats/beat_locator.h"
#include "beats/beat_windows.h"
#include "beats/beat_words.h"
#include "beats/peak_finder.h"
#include "beats/qrs_energy.h"
#include "beats/spike_filter.h"
#include "fixed_point/words.h"

#define SS_BEAT_DETECTOR_NEVER (-INT64_C(4611686018427387904))
/* Counted in samples, and no more than this after weeks without a beat. */
#define SS_BEAT_DETECTOR_LONGEST_SILENCE 1073741824

/*
 * Finds R peaks in a stream of ECG codes. A value of fixed size: an assignment copies the whole state.
 * Input: codes of up to 24 bits, any weight of a bit, either polarity. Product: see the stages: spikes, band-pass, energy, peak finder,
 * levels, locator, shape, judge. Accumulator: 32 bits throughout; 64 bits only for sample indices. Worst case: see the stages. Output: events
 * with places in 1/256 sample, at most one a sample.
 */
struct ss_beat_detector {
    ss_beat_windows_t windows;
    ss_spike_filter_t spikes;
    ss_band_pass_t band_pass;
    ss_qrs_energy_t energy;
    ss_peak_finder_t peaks;
    ss_beat_levels_t levels;
    ss_beat_locator_t locator;
    ss_beat_learning_t learning;
    ss_beat_judge_t judge;
    ss_beat_gaps_t gaps;
    ss_word256_t ecg;
    ss_wide4_t spike_at;
    int64_t next;
    int64_t base;
    int64_t now;
    int32_t sum;
    int32_t phase;
    int32_t skip;
    int32_t spike_count;
    int32_t since_beat;
    bool is_fresh;
    bool has_run_beat;
    ss_beat_event_t event;
};

/* Index of the sample that comes next. */
static inline int64_t ss_beat_detector_next_index(const ss_beat_detector_t *self);

/* The latest beat; meaningful after a call that said there is one. */
static inline ss_beat_event_t ss_beat_detector_event(const ss_beat_detector_t *self);

/* Whether heights of beats and noise are known. */
static inline bool ss_beat_detector_is_learned(const ss_beat_detector_t *self);

/* Typical height of a beat in the energy, halved; 0 while nothing is learned. */
static inline int32_t ss_beat_detector_signal_level(const ss_beat_detector_t *self);

/* Typical height of what is no beat, halved. */
static inline int32_t ss_beat_detector_noise_level(const ss_beat_detector_t *self);

/* Samples taken since the R peak of the latest beat, bridged ones included; since the start while there is none. */
static inline int32_t ss_beat_detector_since_beat_samples(const ss_beat_detector_t *self);

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Sampling rate [Hz], 100 to 1000.
 * codes_per_mv256: Codes in a millivolt, times 256; 0 when unknown.
 * Returns: Whether the rate is allowed.
 */
bool ss_beat_detector_start_2(ss_beat_detector_t *self, int32_t rate_hz, int32_t codes_per_mv256);

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Sampling rate [Hz], 100 to 1000.
 * codes_per_mv256: Codes in a millivolt, times 256; 0 when unknown.
 * tuning: Constants that may be set.
 * Returns: Whether the rate is allowed.
 */
bool ss_beat_detector_start_3(ss_beat_detector_t *self, int32_t rate_hz, int32_t codes_per_mv256, const ss_tuning_t *tuning);

/*
 * The next sample has this index: after a gap, or after samples that cannot be used. As soon as the next sample comes a short gap is filled by
 * a straight line, and the run goes on; a longer one ends it. Levels and shapes stay.
 * index: Index of the next sample.
 */
void ss_beat_detector_restart(ss_beat_detector_t *self, int64_t index);

/*
 * Takes samples until a beat is found or none is left.
 * codes: The samples.
 * found: Whether event holds a new beat.
 * Returns: How many samples were taken.
 */
int32_t ss_beat_detector_take_2(ss_beat_detector_t *self, ss_view_int32_t codes, bool *found);

/*
 * Takes samples until a beat is found or none is left.
 * codes: The samples.
 * status: Their status words (sample_flags); empty when the sensor gives none.
 * found: Whether event holds a new beat.
 * Returns: How many samples were taken; 0 is possible when a beat is found while a gap before the first one is filled.
 */
int32_t ss_beat_detector_take_3(ss_beat_detector_t *self, ss_view_int32_t codes, ss_view_uint16_t status, bool *found);

/*
 * No more samples follow (the end, or a gap): decides about what is held. Call it again while it says yes.
 * Returns: Whether event holds a new beat.
 */
bool ss_beat_detector_flush(ss_beat_detector_t *self);

static inline int64_t ss_beat_detector_next_index(const ss_beat_detector_t *self)
{
    return self->next;
}

static inline ss_beat_event_t ss_beat_detector_event(const ss_beat_detector_t *self)
{
    return self->event;
}

static inline bool ss_beat_detector_is_learned(const ss_beat_detector_t *self)
{
    return ss_beat_levels_is_learned(&self->levels);
}

static inline int32_t ss_beat_detector_signal_level(const ss_beat_detector_t *self)
{
    return self->levels.half_signal;
}

static inline int32_t ss_beat_detector_noise_level(const ss_beat_detector_t *self)
{
    return self->levels.half_noise;
}

static inline int32_t ss_beat_detector_since_beat_samples(const ss_beat_detector_t *self)
{
    return self->since_beat;
}

#endif
