/* Generated from SensorSim.Detection/Readings/ArrivalMedian.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_ARRIVAL_MEDIAN_H
#define SS_READINGS_ARRIVAL_MEDIAN_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "readings/rings.h"

#define SS_ARRIVAL_MEDIAN_STEPS 3
#define SS_ARRIVAL_MEDIAN_ENOUGH 4

/*
 * The running median of the last eight arrival times, and whether those left out agree among themselves.
 * Input: thousandths of a millisecond, 80,000 to 450,000. Product: none. Accumulator: 16 bits in steps of 8 µs, rounded to nearest. Worst
 * case: 450 ms are 56,250 steps. Output: thousandths of a millisecond, within 4 µs of the exact median.
 */
struct ss_arrival_median {
    ss_readings_half8_t times;
    uint16_t first;
    uint8_t count;
    uint8_t at;
    uint8_t strays;
    uint8_t history;
};

/* Times held, up to 8. */
static inline int32_t ss_arrival_median_count(const ss_arrival_median_t *self);

/*
 * The median.
 * otherwise: What counts as the median while there are fewer than four times.
 */
int32_t ss_arrival_median_value(const ss_arrival_median_t *self, int32_t otherwise);

/*
 * Takes a time that was given.
 * time_us: The time [1/1000 ms].
 */
void ss_arrival_median_add(ss_arrival_median_t *self, int32_t time_us);

/* How restless the last eight were: a point for each quarter millisecond that their inner six span, 16 for each one left out. */
int32_t ss_arrival_median_unrest(const ss_arrival_median_t *self);

/*
 * Forgets all but a new level; what follows is judged by it at once.
 * time_us: The level [1/1000 ms].
 */
void ss_arrival_median_begin(ss_arrival_median_t *self, int32_t time_us);

/*
 * Takes a time that was left out.
 * time_us: The time [1/1000 ms].
 * far_us: Within this of the first of them they agree [1/1000 ms].
 * patience: How many in a row make a new level.
 * Returns: Whether there is a new level.
 */
bool ss_arrival_median_is_moved(ss_arrival_median_t *self, int32_t time_us, int32_t far_us, int32_t patience);

static inline int32_t ss_arrival_median_count(const ss_arrival_median_t *self)
{
    return self->count;
}

#endif
