/* Generated from SensorSim.Detection/Readings/Respiration.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_RESPIRATION_H
#define SS_READINGS_RESPIRATION_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/common_clock.h"
#include "common/reading.h"
#include "readings/beat_clock.h"
#include "readings/breath_series.h"

#define SS_RESPIRATION_STEPS_PER_READING 10
#define SS_RESPIRATION_LONGEST_S 5
#define SS_RESPIRATION_NEAR_MILLI 3000
#define SS_RESPIRATION_LEAST_CLARITY 128
#define SS_RESPIRATION_LEAST_OF_TWO 340
#define SS_RESPIRATION_INTERVALS_PER_SECOND 4096

/*
 * Breathing rate from what breathing does to the beats: their intervals, the size of the pulse, the level of the light; every 5 s.
 * Three series (Karlen et al. 2013: frequency, amplitude and intensity; from memory). Intervals are those of the ECG, or of the pulses while
 * there is none; sizes are those of the pulse, or of the R peak. Each gives its strongest rate over 32 s. A rate is given only when at least
 * two series agree within 3 per minute, all clear (half of the power round one rate; of two alone two thirds): slow waves of the rate near 6
 * per minute are in the intervals only. When a clear series says more than 7/16 of the heart rate there is none: from half on, beats cannot
 * tell a rate from a slower one. Input: places in 1/256 tick, amplitudes and levels of 24 bits. Product: rate × clarity, 25 bits. Accumulator:
 * 32 bits. Worst case: all at 40 per minute. Output: thousandths of a breath per minute, 4 to 40.
 */
struct ss_respiration {
    ss_breath_series_t intervals;
    ss_breath_series_t sizes;
    ss_breath_series_t levels;
    ss_beat_clock_t clock;
    ss_common_clock_t common;
    int64_t beat256;
    int64_t pulse256;
    int64_t end256;
    int32_t rate_milli;
    uint8_t made;
    uint8_t quality;
    bool has_beat;
    bool has_pulse;
};

/* The latest value; quality 0 until there was one. */
static inline ss_reading_t ss_respiration_latest(const ss_respiration_t *self);

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_respiration_start(ss_respiration_t *self, ss_common_clock_t clock);

/*
 * Takes a beat of the ECG.
 * ticks256: Its R peak [1/256 tick].
 * starts_run: Whether there is no interval to it.
 * amplitude_codes: Size of the R peak, any sign [codes].
 * Returns: Whether there is a new value.
 */
bool ss_respiration_add_beat(ss_respiration_t *self, int64_t ticks256, bool starts_run, int32_t amplitude_codes);

/*
 * Takes a pulse.
 * ticks256: Its foot [1/256 tick].
 * starts_run: Whether there is no interval to it.
 * amplitude_codes: Size of the pulse [codes].
 * level_codes: Light at its minimum [codes].
 * Returns: Whether there is a new value.
 */
bool ss_respiration_add_pulse(ss_respiration_t *self, int64_t ticks256, bool starts_run, int32_t amplitude_codes, int32_t level_codes);

/* The settings of the sensor changed: sizes and levels of before do not compare. */
void ss_respiration_step(ss_respiration_t *self);

static inline ss_reading_t ss_respiration_latest(const ss_respiration_t *self)
{
    return ss_reading_make(SS_READING_KIND_RESPIRATION_RATE, self->rate_milli, self->quality, self->end256,
        self->common.ticks_per_second * INT64_C(256) * INT64_C(32));
}

#endif
