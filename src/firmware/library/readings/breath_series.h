/* Generated from SensorSim.Detection/Readings/BreathSeries.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_BREATH_SERIES_H
#define SS_READINGS_BREATH_SERIES_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "readings/rings.h"

/* Values held. */
#define SS_BREATH_SERIES_LENGTH 64
#define SS_BREATH_SERIES_LONGEST_STEPS 8

/*
 * What breathing does to one quantity of the beats, twice a second over the last 32 s.
 * Input: a value of 30 bits per beat, its place in 1/256 tick, and what counts as 256. Product: deviation × 256, 39 bits; 64 bits.
 * Accumulator: running mean, 32 bits: an eighth of each new value. Worst case: deviations beyond ±127 clip: half of the unit. Output: 8 bits,
 * deviation from the running mean in 1/256 of the unit; one long division per beat and one for each half second.
 */
struct ss_breath_series {
    ss_signed64_t values;
    int64_t before256;
    int64_t next256;
    int32_t mean;
    int8_t before_value;
    uint8_t at;
    uint8_t held;
    bool has_before;
};

/* Where the next value will stand [1/256 tick]; 0 while there is none. */
static inline int64_t ss_breath_series_next256(const ss_breath_series_t *self);

/* Whether 32 s are held. */
static inline bool ss_breath_series_is_full(const ss_breath_series_t *self);

/* The running mean of the values. */
static inline int32_t ss_breath_series_mean(const ss_breath_series_t *self);

/* A value. */
static inline int32_t ss_breath_series_at(const ss_breath_series_t *self, int32_t age);

/* What comes next does not follow what came before; what is held is dropped, the mean stays. */
void ss_breath_series_restart(ss_breath_series_t *self);

/*
 * Takes the value of a beat.
 * ticks256: Its place [1/256 tick].
 * value: The value.
 * step256: Half a second [1/256 tick].
 * unit: Which difference of values counts as 256; at least 1.
 * Returns: How many values of the grid were made.
 */
int32_t ss_breath_series_add(ss_breath_series_t *self, int64_t ticks256, int64_t step256, int32_t value, int32_t unit);

static inline int64_t ss_breath_series_next256(const ss_breath_series_t *self)
{
    return self->next256;
}

static inline bool ss_breath_series_is_full(const ss_breath_series_t *self)
{
    return self->held == SS_BREATH_SERIES_LENGTH;
}

static inline int32_t ss_breath_series_mean(const ss_breath_series_t *self)
{
    return self->mean;
}

static inline int32_t ss_breath_series_at(const ss_breath_series_t *self, int32_t age)
{
    return self->values.at[(self->at + age) & (SS_BREATH_SERIES_LENGTH - 1)];
}

#endif
