/* Generated from SensorSim.Detection/Pulses/PulseLevels.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_LEVELS_H
#define SS_PULSES_PULSE_LEVELS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

#define SS_PULSE_LEVELS_HIGHEST 1073741824
#define SS_PULSE_LEVELS_STEADY 4

/*
 * Third stage: how steep pulses have been lately, and the thresholds below it.
 * Input: 30 bits unsigned, steepest values; noise in the same format. Product: by sixteenths as shifts and additions; by a UQ4.8 ratio after a
 * change of settings, 42 bits. Accumulator: 32 bits. Worst case: the input itself; scaled values clip at 2^30. Output: thresholds in the
 * input's format, floor.
 */
struct ss_pulse_levels {
    ss_word8_t signals;
    int32_t at;
    int32_t since;
    int32_t refused;
    int32_t refused_count;
    int32_t candidate;
    bool is_between;
    int32_t ripple_now;
    int32_t proven_ripple;
    int32_t last;
    int16_t more1024;
    int32_t signal; /* Typical steepest value: the third highest of the last eight; 0 while nothing is learned. */
    int32_t proven; /* The last one that four pulses in a row have stood for. */
    int32_t noise; /* Deviation of the slope by noise. */
    int32_t ripple; /* Typical steepest value of the wave that follows a pulse, dicrotic notch to diastolic peak; 0 when it is small. */
    /* Threshold until 420 ms after a pulse, when the diastolic wave rises: 5/4 of it, 1/8 of a pulse and four deviations of the noise. */
    int32_t early;
    /* Threshold later on: 3/32, but five deviations of the noise, and those at most 5/16; 5/16 until two pulses have come. */
    int32_t late;
    int32_t limit; /* Steeper upstrokes are no pulses of this level: four times the typical value. */
};

/*
 * Sets how high the thresholds are, of the usual ones.
 * percent: 25 to 400.
 */
void ss_pulse_levels_set_percent(ss_pulse_levels_t *self, int32_t percent);

/*
 * Sets the level from a stretch of signal.
 * steepest: Steepest value of the stretch.
 */
void ss_pulse_levels_learn(ss_pulse_levels_t *self, int32_t steepest);

/*
 * A pulse this steep was found.
 * steepest: Its steepest value.
 */
void ss_pulse_levels_add(ss_pulse_levels_t *self, int32_t steepest);

/*
 * Whether an upstroke is at least half as steep as pulses are.
 * steepest: Its steepest value.
 */
bool ss_pulse_levels_is_strong(const ss_pulse_levels_t *self, int32_t steepest);

/*
 * A weak upstroke came early after a pulse; so it counts whether it is told as a pulse or not.
 * steepest: Its steepest value.
 */
void ss_pulse_levels_add_ripple(ss_pulse_levels_t *self, int32_t steepest);

/*
 * The noise has been estimated anew.
 * noise: Deviation of the slope by noise.
 */
void ss_pulse_levels_set_noise(ss_pulse_levels_t *self, int32_t noise);

/*
 * The sensor gives more or less for the same pulse.
 * ratio256: How much more [1/256].
 */
void ss_pulse_levels_scale(ss_pulse_levels_t *self, int32_t ratio256);

/*
 * An upstroke is steeper than pulses of this level may be: a step, or pulses have become larger.
 * The second such upstroke of about the same size may be a pulse, the third if pulses were found between. After a silence that lowered the
 * level the first one may, when it is of the size from before. More than sixteen times the level needs six.
 * steepest: Its steepest value.
 * is_near: Whether the last one lies about a beat before it.
 * Returns: Whether it may be a pulse; then believe tells what to do when it is.
 */
bool ss_pulse_levels_refuse(ss_pulse_levels_t *self, int32_t steepest, bool is_near);

/* Whether so many alike were refused that their shape no longer speaks against them: six. */
static inline bool ss_pulse_levels_is_pressing(const ss_pulse_levels_t *self);

/* The refused upstroke is a pulse: the level is learned from it, or taken back to what it was. */
void ss_pulse_levels_believe(ss_pulse_levels_t *self);

/*
 * Whether an upstroke is less than half as steep as the last refused one: near it, it may be its diastolic wave.
 * steepest: Its steepest value.
 */
bool ss_pulse_levels_is_after_refused(const ss_pulse_levels_t *self, int32_t steepest);

static inline bool ss_pulse_levels_is_pressing(const ss_pulse_levels_t *self)
{
    return self->refused_count >= 6;
}

#endif
