/* Generated from SensorSim.Detection/Readings/HeartRate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_HEART_RATE_H
#define SS_READINGS_HEART_RATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/reading.h"
#include "fixed_point/words.h"
#include "readings/beat_clock.h"
#include "readings/rings.h"

#define SS_HEART_RATE_MOST 8
#define SS_HEART_RATE_LEAST 4
#define SS_HEART_RATE_LONGEST_S 6

/*
 * Heart rate from beats or pulses: n / (last − first) over the latest intervals without a gap, eight of them or at least four.
 * After a gap four intervals are enough: they come within 4 s at rest, and a place that is 5 ms off moves their mean by 1/4 of what it moves
 * one interval, 0.2 bpm at 75 bpm. A beat that was missed (one interval of twice the median among regular ones) or one too many (two that make
 * one) is no part of a reading: there is none until four intervals have come since. Fewer than eight must be alike, for a false beat among
 * four moves their rate by a tenth. Ectopic beats change no such sum, so they stay in. Input: places in 1/256 tick, made units of 31 bits.
 * Product: 60,000 × 8 × 256 × ticks per second, 57 bits on a clock of 1 GHz. Accumulator: 32 bits for up to eight intervals, each below 6 s.
 * Worst case: an interval above 6 s (10 bpm) ends the run; quotients above 2^31 − 1 clip. Output: thousandths of a beat per minute, rounded to
 * nearest; one long division per beat.
 */
struct ss_heart_rate {
    ss_word8_t intervals;
    ss_byte8_t qualities;
    ss_beat_clock_t clock;
    int64_t last256;
    int32_t longest;
    int32_t span;
    uint8_t count;
    uint8_t at;
    uint8_t quality;
    bool has_last;
    ss_reading_kind_t kind;
    int64_t end256;
    int32_t rate_milli_bpm; /* The latest value [1/1000 bpm]. */
};

/* The latest value; quality 0 until there was one. */
static inline ss_reading_t ss_heart_rate_latest(const ss_heart_rate_t *self);

/*
 * Forgets.
 * clock: The common clock.
 * kind: What the reading is called: of the ECG or of the pulse.
 */
void ss_heart_rate_start(ss_heart_rate_t *self, ss_common_clock_t clock, ss_reading_kind_t kind);

/*
 * Takes a beat.
 * ticks256: Its R peak, or a pulse's place of the same kind each time [1/256 tick].
 * starts_run: Whether there is no interval to it.
 * quality: Its trust, 0 to 255.
 * Returns: Whether there is a new value.
 */
bool ss_heart_rate_add(ss_heart_rate_t *self, int64_t ticks256, bool starts_run, uint8_t quality);

static inline ss_reading_t ss_heart_rate_latest(const ss_heart_rate_t *self)
{
    return ss_reading_make(self->kind, self->rate_milli_bpm, self->quality, self->end256,
        ss_beat_clock_ticks256(&self->clock, (int64_t)self->span));
}

#endif
