/* Generated from SensorSim.Detection/Readings/OxygenTable.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_OXYGEN_TABLE_H
#define SS_READINGS_OXYGEN_TABLE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "readings/rings.h"

/* Most pairs. */
#define SS_OXYGEN_TABLE_MOST_PAIRS 16

/*
 * From ratio of ratios to oxygen saturation, as calibrated: straight lines between up to 16 pairs.
 * Input: ratios in 1/10,000, up to 6.5; saturations in 1/1000 %, kept in steps of 2/1000 %. Product: step of saturation × step of ratio, 33
 * bits. Accumulator: 64 bits, once per pulse. Worst case: beyond the table the value of its end. Output: thousandths of a per cent, rounded to
 * nearest; one long division.
 */
struct ss_oxygen_table {
    ss_half16_t ratios;
    ss_half16_t percents;
    uint8_t count;
};

/* The textbook line 110 − 25 R from 100 % down to 0 (Webster, Design of Pulse Oximeters, 1997; from memory; fair for R of 0.4 to 1.0). */
ss_oxygen_table_t ss_oxygen_table_textbook(void);

/* Pairs held. */
static inline int32_t ss_oxygen_table_count(const ss_oxygen_table_t *self);

/* The lowest ratio [1/10,000]. */
static inline int32_t ss_oxygen_table_lowest_ratio(const ss_oxygen_table_t *self);

/* The highest ratio [1/10,000]; meaningful when there are pairs. */
static inline int32_t ss_oxygen_table_highest_ratio(const ss_oxygen_table_t *self);

/*
 * Adds a pair; ratios rise and saturations fall.
 * ratio: Ratio of ratios [1/10,000], 1 to 65,535.
 * milli_percent: Saturation [1/1000 %], 0 to 100,000.
 * Returns: Whether the pair fits; when not, nothing changes.
 */
bool ss_oxygen_table_add(ss_oxygen_table_t *self, int32_t ratio, int32_t milli_percent);

/*
 * Saturation at a ratio [1/1000 %]; 0 without pairs.
 * ratio: Ratio of ratios [1/10,000].
 */
int32_t ss_oxygen_table_milli_percent(const ss_oxygen_table_t *self, int32_t ratio);

static inline int32_t ss_oxygen_table_count(const ss_oxygen_table_t *self)
{
    return self->count;
}

static inline int32_t ss_oxygen_table_lowest_ratio(const ss_oxygen_table_t *self)
{
    return self->ratios.at[0];
}

static inline int32_t ss_oxygen_table_highest_ratio(const ss_oxygen_table_t *self)
{
    return self->ratios.at[(self->count - 1) & (SS_OXYGEN_TABLE_MOST_PAIRS - 1)];
}

#endif
