/* Generated from SensorSim.Detection/Readings/Arrival.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_ARRIVAL_H
#define SS_READINGS_ARRIVAL_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/common_clock.h"
#include "common/reading.h"
#include "common/sample_position.h"
#include "readings/arrival_median.h"
#include "readings/rings.h"

#define SS_ARRIVAL_EARLIEST_MS 80
#define SS_ARRIVAL_LATEST_MS 450
#define SS_ARRIVAL_KEPT 4
#define SS_ARRIVAL_NONE INT64_MIN
#define SS_ARRIVAL_FAR_US 25000
#define SS_ARRIVAL_PATIENCE 4
#define SS_ARRIVAL_ENOUGH 4

/*
 * Pulse arrival time: each R peak with the first foot 80 to 450 ms after it; a foot serves one R peak only.
 * A time more than 25 ms off the median of the last eight given ones is left out: three to eight times the spread between beats at rest (3 to
 * 8 ms, from memory), so ectopic beats and feet moved by movement fall out. When four in a row are left out and lie within 25 ms of each
 * other, the arrival time has moved (a raised arm: 38 ms, Jago and Murray 1988) and all is begun anew. Input: places in 1/256 sample of two
 * channels, brought to 1/256 tick by whole factors. Product: ticks × 10^6, 63 bits up to clocks of 1 GHz. Accumulator: 64 bits, once per beat.
 * Worst case: 450 ms on a clock of 1 GHz: 2^37 × 10^6 / 256. Output: thousandths of a millisecond, rounded to nearest; one long division per
 * pair.
 */
struct ss_arrival {
    ss_long4_t peaks;
    ss_long4_t feet;
    ss_byte4_t peak_qualities;
    ss_byte4_t foot_qualities;
    ss_common_clock_t clock;
    int64_t newest_peak256;
    int64_t newest_foot256;
    int64_t peak_step;
    int64_t foot_step;
    int64_t delay256;
    int64_t earliest256;
    int64_t latest256;
    int64_t peak;
    int64_t foot;
    ss_arrival_median_t median;
    uint8_t peak_at;
    uint8_t foot_at;
    uint8_t quality;
    bool is_outlier;
    int32_t time_us; /* The latest value [1/1000 ms]. */
};

/* The R peak of the latest value, in samples of the ECG channel. */
static inline ss_sample_position_t ss_arrival_r_peak(const ss_arrival_t *self);

/* The foot of the latest value, in samples of the optical channel. */
static inline ss_sample_position_t ss_arrival_foot(const ss_arrival_t *self);

/* The latest value, placed at its foot; quality 0 until there was one. */
static inline ss_reading_t ss_arrival_latest(const ss_arrival_t *self);

/* Whether the last call found a pair whose time was left out. */
static inline bool ss_arrival_is_outlier(const ss_arrival_t *self);

/*
 * Forgets, and sets the common clock.
 * ticks_per_second: Ticks of the common clock in a second.
 * ticks_per_ecg_sample: Ticks from one ECG sample to the next.
 * ticks_per_optical_sample: Ticks from one optical sample to the next.
 * optical_delay256: How much longer the optical chain delays than the ECG chain [1/256 tick].
 */
void ss_arrival_start(ss_arrival_t *self, int64_t ticks_per_second, int64_t ticks_per_ecg_sample, int64_t ticks_per_optical_sample,
    int64_t optical_delay256);

/*
 * Takes an R peak. It may come after its foot: beats are decided later than pulses.
 * peak: The R peak.
 * quality: Its trust, 0 to 255.
 * Returns: Whether there is a new value.
 */
bool ss_arrival_add_r_peak(ss_arrival_t *self, ss_sample_position_t peak, uint8_t quality);

/*
 * Takes a foot.
 * foot: The foot.
 * quality: Its trust, 0 to 255.
 * Returns: Whether there is a new value.
 */
bool ss_arrival_add_foot(ss_arrival_t *self, ss_sample_position_t foot, uint8_t quality);

/*
 * An R peak that no foot will be paired with any more. Ask after each call until there is none.
 * ticks256: Receives the R peak [1/256 tick].
 * Returns: Whether there is one.
 */
bool ss_arrival_take_unpaired(ss_arrival_t *self, int64_t *ticks256);

static inline ss_sample_position_t ss_arrival_r_peak(const ss_arrival_t *self)
{
    return ss_sample_position_from256(self->peak);
}

static inline ss_sample_position_t ss_arrival_foot(const ss_arrival_t *self)
{
    return ss_sample_position_from256(self->foot);
}

static inline ss_reading_t ss_arrival_latest(const ss_arrival_t *self)
{
    return ss_reading_make(SS_READING_KIND_ARRIVAL, self->time_us, self->quality, self->foot * self->foot_step, INT64_C(0));
}

static inline bool ss_arrival_is_outlier(const ss_arrival_t *self)
{
    return self->is_outlier;
}

#endif
