/* Generated from SensorSim.Detection/Pressure/PressureTrend.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_TREND_H
#define SS_PRESSURE_PRESSURE_TREND_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pressure/cusum.h"

#define SS_PRESSURE_TREND_PARTS 4
#define SS_PRESSURE_TREND_SECONDS_PER_DAY 86400
#define SS_PRESSURE_TREND_MOST_DAYS 4095
#define SS_PRESSURE_TREND_MOST_DEVIATION256 32768

struct ss_pressure_trend_part_values {
    int32_t at[4];
};

struct ss_pressure_trend_part_counts {
    uint8_t at[4];
};

/*
 * A gradual change of the pressure over days to weeks, from spot readings: a cumulative sum to both sides of one value a day.
 * The value of a day is the median over four parts of the day (six hours each) of mean spot less the usual value of that part, so that neither
 * many spots on a day nor other hours count as a change. The usual values go on being learned while nothing is told, each day compared with
 * the days before it only (self-starting, Hawkins 1987, from memory): deviation d from the mean of n days has the variance σ² (1 + 1/n), and
 * standardised by it the days are as independent as with a known mean. σ² starts from an assumed value, and is raised by what successive days
 * have in common. Input: 1/1000 mmHg. Product: squares of deviations in 1/16 mmHg, 22 bits. Accumulator: 32 bits unsigned, saturating; 64 bits
 * on the way. Worst case: deviations clip at ±128 mmHg. Output: 1/1000 mmHg, mean deviation since the change began; a few divisions a reading
 * and a day.
 */
struct ss_pressure_trend {
    ss_cusum_t up;
    ss_cusum_t down;
    ss_pressure_trend_part_values_t usual256;
    ss_pressure_trend_part_values_t today256;
    ss_pressure_trend_part_counts_t days;
    ss_pressure_trend_part_counts_t spots;
    int32_t day;
    uint32_t squares256;
    int32_t products256;
    int16_t last16;
    uint16_t day_count;
    uint16_t rate16;
    bool is_told; /* Whether a change is told at present. */
};

/* Days with readings so far, the present one not counted. */
static inline int32_t ss_pressure_trend_days(const ss_pressure_trend_t *self);

/* Change since it began [1/1000 mmHg]: of the side whose sum is larger; of little worth while nothing is told. */
static inline int32_t ss_pressure_trend_change_milli(const ss_pressure_trend_t *self);

/* First day of the change [days], as far as it can be told; of the side whose sum is larger. */
static inline int32_t ss_pressure_trend_began_day(const ss_pressure_trend_t *self);

/*
 * Takes a spot reading of systolic or diastolic pressure; one trend for each of them.
 * settings: Settings.
 * clock: The common clock of the reading.
 * spot: The reading.
 * heart_rate: Heart rate of the same time; a value of 0 when not known.
 * local_time_s: Local time [s], so that days end at midnight, not falling; after 1970 or any other day.
 * trend: The change, when one is told.
 * Returns: Whether a day ended with this reading and there is a change to tell.
 */
bool ss_pressure_trend_add(ss_pressure_trend_t *self, const ss_trend_settings_t *settings, const ss_common_clock_t *clock,
    const ss_reading_t *spot, const ss_reading_t *heart_rate, int64_t local_time_s, ss_reading_t *trend);

/*
 * Ends the days before a day; called by add, and by whoever wants to know without a new reading.
 * settings: Settings.
 * day: The day that has begun.
 * Returns: Whether a day with readings ended and there is a change to tell.
 */
bool ss_pressure_trend_end_day(ss_pressure_trend_t *self, const ss_trend_settings_t *settings, int32_t day);

int32_t ss_pressure_trend_to_milli(int32_t q8);

static inline int32_t ss_pressure_trend_days(const ss_pressure_trend_t *self)
{
    return self->day_count;
}

static inline int32_t ss_pressure_trend_change_milli(const ss_pressure_trend_t *self)
{
    return (self->up.sum256 >= self->down.sum256) ? ss_pressure_trend_to_milli(ss_cusum_size256(&self->up))
        : -ss_pressure_trend_to_milli(ss_cusum_size256(&self->down));
}

static inline int32_t ss_pressure_trend_began_day(const ss_pressure_trend_t *self)
{
    return (self->up.sum256 >= self->down.sum256) ? self->up.began_day : self->down.began_day;
}

#endif
