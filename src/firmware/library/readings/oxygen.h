/* Generated from SensorSim.Detection/Readings/Oxygen.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_OXYGEN_H
#define SS_READINGS_OXYGEN_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/reading.h"
#include "readings/beat_window.h"
#include "readings/colour_band.h"
#include "readings/colour_sums.h"
#include "readings/oxygen_table.h"
#include "readings/rings.h"

/* Lowest sampling rate [Hz]. */
#define SS_OXYGEN_MINIMUM_RATE_HZ 25
/* Highest sampling rate [Hz]. */
#define SS_OXYGEN_MAXIMUM_RATE_HZ 500
#define SS_OXYGEN_VALUES_PER_SECOND 25
#define SS_OXYGEN_MOST_VALUES 128
#define SS_OXYGEN_LEVEL_BITS 18
#define SS_OXYGEN_LOWEST 70000
#define SS_OXYGEN_BEYOND 400
#define SS_OXYGEN_POINT 1000
#define SS_OXYGEN_LOW_QUALITY 63
#define SS_OXYGEN_UNUSUAL 5
#define SS_OXYGEN_ODD_PENALTY 32
#define SS_OXYGEN_MOST 8
#define SS_OXYGEN_LEAST 4

/*
 * Oxygen saturation from red and infrared light: ratio of ratios of each pulse, the trimmed mean of eight, a calibration table.
 * Samples are summed to about 25 values a second, high-passed (colour_band) and correlated over one pulse (colour_sums). The lowest and the
 * highest quarter of the latest eight ratios are left out. Pulses below 0.1 % of perfusion, whose colours do not beat together, or which are
 * 1.5 times as large as those before them (or as small) are refused: movement makes such, and draws the ratio to its own. Light without that
 * of the room is asked for: what is left of it in one colour moves the reading. Input: codes of 24 bits from the code of no light, room light
 * taken off; a pair at a time. Product: see the stages. Accumulator: 32 bits for sums of up to 20 codes. Worst case: 500 Hz, 20 codes of 24
 * bits: 29 bits. Output: thousandths of a per cent, 70 to 100 %; about seven long divisions per pulse.
 */
struct ss_oxygen {
    ss_oxygen_table_t table;
    ss_colour_sums_t sums;
    ss_colour_band_t red;
    ss_colour_band_t infrared;
    ss_beat_window_t window;
    ss_readings_half8_t ratios;
    int32_t red_sum;
    int32_t infrared_sum;
    int32_t milli_percent;
    int16_t usual;
    uint8_t odd;
    uint8_t decimation;
    uint8_t phase;
    uint8_t shift;
    uint8_t count;
    uint8_t at;
    uint8_t quality;
    bool is_fresh;
    bool is_whole;
};

/* The latest value; quality 0 until there was one. */
static inline ss_reading_t ss_oxygen_latest(const ss_oxygen_t *self);

/* Ratio of ratios of the latest pulse that counted [1/10,000]. */
static inline int32_t ss_oxygen_ratio(const ss_oxygen_t *self);

/*
 * Forgets.
 * rate_hz: Sampling rate of both colours [Hz], 25 to 500.
 * clock: The common clock.
 * table: The calibration, at least two pairs.
 * Returns: Whether the arguments are allowed.
 */
bool ss_oxygen_start(ss_oxygen_t *self, int32_t rate_hz, ss_common_clock_t clock, const ss_oxygen_table_t *table);

/* What comes next does not follow what came before: a gap, or the sensor's settings changed. The pulse in it is not judged. */
void ss_oxygen_restart(ss_oxygen_t *self);

/*
 * Takes a pair of samples.
 * red: Red light [codes].
 * infrared: Infrared light [codes].
 */
static inline void ss_oxygen_next(ss_oxygen_t *self, int32_t red, int32_t infrared);

/*
 * A pulse was told: what came since the last one makes one ratio.
 * pulse: The pulse, with amplitude and level of infrared.
 * ticks256: Its foot [1/256 tick].
 * Returns: Whether there is a new value.
 */
bool ss_oxygen_pulse(ss_oxygen_t *self, const ss_pulse_event_t *pulse, int64_t ticks256);

void ss_oxygen_work(ss_oxygen_t *self);

static inline ss_reading_t ss_oxygen_latest(const ss_oxygen_t *self)
{
    return ss_reading_make(SS_READING_KIND_SPO2, self->milli_percent, self->quality, self->window.end256,
        ss_beat_window_length256(&self->window, self->count));
}

static inline int32_t ss_oxygen_ratio(const ss_oxygen_t *self)
{
    return self->ratios.at[(self->at - 1) & (SS_OXYGEN_MOST - 1)];
}

static inline void ss_oxygen_next(ss_oxygen_t *self, int32_t red, int32_t infrared)
{
    self->red_sum += red;
    self->infrared_sum += infrared;
    self->phase++;
    if (self->phase >= self->decimation) {
        ss_oxygen_work(self);
    }
}

#endif
