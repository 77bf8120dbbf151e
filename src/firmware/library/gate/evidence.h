/* Generated from SensorSim.Detection/Gate/Evidence.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_EVIDENCE_H
#define SS_GATE_EVIDENCE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "gate/half8.h"

/* A height belongs to the others within 3/8 octave: + 30 %, − 23 %. */
#define SS_EVIDENCE_HEIGHT_REACH 24
#define SS_EVIDENCE_MASK 7
/* A regular rhythm with one too many has two odd intervals, after one early beat besides three. */
#define SS_EVIDENCE_ODD_WHEN_REGULAR 3
/*
 * The next one is missing after a second and 2 1/4 typical intervals: one may be missed, and is told half a second late. As long as no
 * interval is known, after the longest interval that a slow heart has (20 a minute) and that second.
 */
#define SS_EVIDENCE_LATE_MS 1000
#define SS_EVIDENCE_LONGEST_MS 3000

/*
 * Whether the last eight beats or pulses look like each other: their intervals and their heights.
 * Input: times in units of gate_time, 16 bits a span; heights of 31 bits and a sign. Product: medians by 3, 9 and 13, of 15 bits. Accumulator:
 * 32 bits. Worst case: intervals above 2^15 − 1 units (16 s) clip; none is regular at that length. Output: counts up to 15, once per beat;
 * heights on a scale of 1/64 octave (piecewise linear, at most 5.5/64 off).
 */
struct ss_evidence {
    ss_gate_half8_t intervals;
    ss_gate_half8_t heights;
    int64_t last256;
    int16_t interval;
    int16_t typical;
    uint8_t interval_at;
    uint8_t height_at;
    uint8_t interval_count;
    uint8_t height_count;
    uint8_t excess;
    uint8_t faults; /* How many intervals and heights stand out from the rest. */
    /* How many of those are left when early beats that a pause follows, as after an ectopic beat, are taken as they are. */
    uint8_t unexplained;
    uint8_t interval_faults; /* How many intervals stand out. */
    uint8_t height_faults; /* How many heights stand out. */
    bool is_doubtful; /* Whether the latest one came early, or stood out in height at an odd time: what it is shows with the next. */
    bool is_cut; /* Whether the one before the latest was one too many: it cut a regular interval in two. */
    bool is_broken; /* The same, or heights and intervals together say that one was too many or was missed. */
};

void ss_evidence_weigh(ss_evidence_t *self, bool had_interval);

/* Whether the two intervals up to a number back are one that was cut. */
bool ss_evidence_is_cut_at(const ss_evidence_t *self, int32_t back);

/* Whether the intervals up to a number back hold one too many, or lack one, by a height that stands out beside them. */
bool ss_evidence_is_broken_at(const ss_evidence_t *self, int32_t back);

int32_t ss_evidence_interval_back(const ss_evidence_t *self, int32_t back);

/* Heights known, 0 to 8. */
static inline int32_t ss_evidence_count(const ss_evidence_t *self);

/* Intervals known, 0 to 8. */
static inline int32_t ss_evidence_interval_count(const ss_evidence_t *self);

/* Median interval [units]; 0 while none is known. */
static inline int16_t ss_evidence_interval(const ss_evidence_t *self);

/* Whether the latest interval is longer than the median by half and more: one may have been missed. */
static inline bool ss_evidence_is_longer(const ss_evidence_t *self);

/* Whether it is longer than a pause after an ectopic beat, in a regular rhythm. */
static inline bool ss_evidence_is_double(const ss_evidence_t *self);

/* When the latest one was [1/256 tick]. */
static inline int64_t ss_evidence_last_ticks256(const ss_evidence_t *self);

/*
 * Whether the next one is long overdue.
 * time: The unit of time.
 * ticks256: Now [1/256 tick].
 */
bool ss_evidence_is_silent(const ss_evidence_t *self, const ss_gate_time_t *time, int64_t ticks256);

/* Whether somewhere in memory a regular interval is cut in two. */
bool ss_evidence_has_cut(const ss_evidence_t *self);

/* Whether somewhere in memory there is one too many or one is missing. */
bool ss_evidence_has_break(const ss_evidence_t *self);

/* Forgets everything. */
void ss_evidence_clear(ss_evidence_t *self);

/* Heights change from here on; intervals stay. */
void ss_evidence_forget_heights(ss_evidence_t *self);

/*
 * Takes a beat or a pulse.
 * time: The unit of time.
 * ticks256: Its place [1/256 tick].
 * height: Its height with its sign, any unit.
 * starts_run: Whether there is no interval to it.
 */
void ss_evidence_add(ss_evidence_t *self, const ss_gate_time_t *time, int64_t ticks256, int32_t height, bool starts_run);

/*
 * Where the last few begin: nothing older need be believed.
 * time: The unit of time.
 * intervals: How many intervals back.
 * Returns: A place at most a unit an interval before the first of them [1/256 tick].
 */
int64_t ss_evidence_back(const ss_evidence_t *self, const ss_gate_time_t *time, int32_t intervals);

bool ss_evidence_is_alike(int32_t height, int32_t other);

/* Whether a value lies within 3/16 of another. */
bool ss_evidence_is_near(int32_t value, int32_t of);

/* The median magnitude, with the sign that most have. */
int32_t ss_evidence_typical_height(const ss_evidence_t *self);

int32_t ss_evidence_median_of(const ss_gate_half8_t *values, int32_t count);

static inline int32_t ss_evidence_count(const ss_evidence_t *self)
{
    return self->height_count;
}

static inline int32_t ss_evidence_interval_count(const ss_evidence_t *self)
{
    return self->interval_count;
}

static inline int16_t ss_evidence_interval(const ss_evidence_t *self)
{
    return self->interval;
}

static inline bool ss_evidence_is_longer(const ss_evidence_t *self)
{
    return self->excess > 0;
}

static inline bool ss_evidence_is_double(const ss_evidence_t *self)
{
    return self->excess > 1;
}

static inline int64_t ss_evidence_last_ticks256(const ss_evidence_t *self)
{
    return self->last256;
}

#endif
