/* Generated from SensorSim.Detection/Pulses/PulsePace.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_PACE_H
#define SS_PULSES_PULSE_PACE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_PULSE_PACE_LONGEST 536870912

/*
 * Side stage: how long ago the last pulse was, how long a beat usually takes, and whether one has been lost.
 * Input: counts of working samples. Product: none. Accumulator: 32 bits, counts stop at 2^29. Worst case: none. Output: working samples.
 */
struct ss_pulse_pace {
    bool is_lost;
    int32_t silence_before;
    int32_t since; /* Working samples since the steepest point of the last pulse, or since the run began. */
    int32_t interval; /* A slow mean of the intervals; 0 while there is none. */
    bool has_pulse; /* Whether the run has a pulse. */
};

/* Working samples since the last pulse, gaps not counted, whatever run it was in. */
static inline int32_t ss_pulse_pace_silence(const ss_pulse_pace_t *self);

/* A run begins. */
void ss_pulse_pace_begin_run(ss_pulse_pace_t *self);

/* A working sample has passed. */
static inline void ss_pulse_pace_next(ss_pulse_pace_t *self);

/* Keeps counts from running over; twice a second. */
void ss_pulse_pace_limit(ss_pulse_pace_t *self);

/* There was a pulse that could not be told. */
void ss_pulse_pace_lose(ss_pulse_pace_t *self);

/* Whether there is no interval to the pulse that is being told. */
static inline bool ss_pulse_pace_is_start(const ss_pulse_pace_t *self);

/*
 * A pulse was told.
 * since: Working samples from the last one to it.
 * ago: How long ago its steepest point is.
 * first: What the interval is taken for before there is one.
 */
void ss_pulse_pace_add(ss_pulse_pace_t *self, int32_t since, int32_t ago, int32_t first);

static inline int32_t ss_pulse_pace_silence(const ss_pulse_pace_t *self)
{
    return self->silence_before + self->since;
}

static inline void ss_pulse_pace_next(ss_pulse_pace_t *self)
{
    self->since++;
}

static inline bool ss_pulse_pace_is_start(const ss_pulse_pace_t *self)
{
    return !self->has_pulse || self->is_lost;
}

#endif
