/* Generated from SensorSim.Detection/Pulses/PulseDetector.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_DETECTOR_H
#define SS_PULSES_PULSE_DETECTOR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"
#include "pulses/foot_locator.h"
#include "pulses/light_input.h"
#include "pulses/pulse_event.h"
#include "pulses/pulse_learning.h"
#include "pulses/pulse_levels.h"
#include "pulses/pulse_noise.h"
#include "pulses/pulse_pace.h"
#include "pulses/pulse_rise.h"
#include "pulses/pulse_windows.h"
#include "pulses/sample_marks.h"
#include "pulses/upstroke_finder.h"
#include "pulses/watch_slope.h"

#define SS_PULSE_DETECTOR_MASK 255

/*
 * Finds pulses in a stream of optical codes. A value of fixed size: an assignment copies the whole state.
 * Input: codes of up to 24 bits, received light: they fall when the vessel fills. Product: see the stages: light input, watch slope, upstroke
 * finder, levels, noise, foot locator. Accumulator: 32 bits throughout; 64 bits only for sample indices and once per change of settings. Worst
 * case: see the stages. Output: events with places in 1/256 sample, at most one a sample.
 */
struct ss_pulse_detector {
    ss_pulse_windows_t windows;
    ss_light_input_t input;
    ss_watch_slope_t slope;
    ss_upstroke_finder_t upstroke;
    ss_pulse_levels_t levels;
    ss_pulse_learning_t learning;
    ss_pulse_noise_t noise;
    ss_foot_locator_t locator;
    ss_pulse_pace_t pace;
    ss_sample_marks_t marks;
    ss_word256_t filling;
    int64_t base;
    int64_t now;
    int64_t refused_at;
    int64_t clear_from;
    int64_t jump_at;
    ss_pulse_rise_t rise;
    ss_pulse_event_t event;
};

/* An upstroke has ended: pulse, or something else. */
bool ss_pulse_detector_decide(ss_pulse_detector_t *self);

/* Index of the sample that comes next. */
static inline int64_t ss_pulse_detector_next_index(const ss_pulse_detector_t *self);

/* The latest pulse; meaningful after a call that said there is one. */
static inline ss_pulse_event_t ss_pulse_detector_event(const ss_pulse_detector_t *self);

/* Whether a level has been learned. */
static inline bool ss_pulse_detector_is_learned(const ss_pulse_detector_t *self);

/* Typical steepest slope of a pulse, by the straight line of 120 ms: slope × Σk²; 0 while nothing is learned. */
static inline int32_t ss_pulse_detector_signal_level(const ss_pulse_detector_t *self);

/* Deviation that the noise of the samples gives that slope, in the same format. */
static inline int32_t ss_pulse_detector_noise_level(const ss_pulse_detector_t *self);

/* Samples since the steepest point of the last pulse, or since the run began. */
static inline int32_t ss_pulse_detector_since_pulse_samples(const ss_pulse_detector_t *self);

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Sampling rate [Hz], 25 to 500.
 * polarity: +1 when more light raises the code, −1 when it lowers it.
 * zero_code: Code of no light.
 * Returns: Whether the arguments are allowed.
 */
bool ss_pulse_detector_start_3(ss_pulse_detector_t *self, int32_t rate_hz, int32_t polarity, int32_t zero_code);

/*
 * Prepares for a stream and drops all state.
 * rate_hz: Sampling rate [Hz], 25 to 500.
 * polarity: +1 when more light raises the code, −1 when it lowers it.
 * zero_code: Code of no light.
 * tuning: Constants that may be set.
 * Returns: Whether the arguments are allowed.
 */
bool ss_pulse_detector_start_4(ss_pulse_detector_t *self, int32_t rate_hz, int32_t polarity, int32_t zero_code, const ss_tuning_t *tuning);

/*
 * The next sample has this index: after a gap, or after samples that cannot be used.
 * Up to 250 ms are bridged by a straight line and the run goes on; what has its upstroke there is not told. After longer gaps the run begins
 * anew; the level stays.
 * index: Index of the next sample.
 */
void ss_pulse_detector_restart(ss_pulse_detector_t *self, int64_t index);

/*
 * The sensor's settings changed at this sample: the level jumps and settles, and the pulse may be larger or smaller.
 * index: Index of the next sample.
 */
void ss_pulse_detector_step(ss_pulse_detector_t *self, int64_t index);

/*
 * Takes samples until a pulse is found or none is left.
 * codes: The samples.
 * found: Whether event holds a new pulse.
 * Returns: How many samples were taken; after a gap a pulse may be found before the first one is taken.
 */
int32_t ss_pulse_detector_take(ss_pulse_detector_t *self, ss_view_int32_t codes, bool *found);

static inline int64_t ss_pulse_detector_next_index(const ss_pulse_detector_t *self)
{
    return self->base + (self->now * (int64_t)self->windows.decimation) + (int64_t)self->input.phase + (int64_t)self->input.fill_left;
}

static inline ss_pulse_event_t ss_pulse_detector_event(const ss_pulse_detector_t *self)
{
    return self->event;
}

static inline bool ss_pulse_detector_is_learned(const ss_pulse_detector_t *self)
{
    return self->levels.signal > 0;
}

static inline int32_t ss_pulse_detector_signal_level(const ss_pulse_detector_t *self)
{
    return self->levels.signal;
}

static inline int32_t ss_pulse_detector_noise_level(const ss_pulse_detector_t *self)
{
    return self->noise.level;
}

static inline int32_t ss_pulse_detector_since_pulse_samples(const ss_pulse_detector_t *self)
{
    return self->pace.since * self->windows.decimation;
}

#endif
