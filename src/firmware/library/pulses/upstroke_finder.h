/* Generated from SensorSim.Detection/Pulses/UpstrokeFinder.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_UPSTROKE_FINDER_H
#define SS_PULSES_UPSTROKE_FINDER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Second stage: stretches where the slope passes a threshold, followed until it is no longer positive.
 * Input: 31 bits and sign. Product: none. Accumulator: none, comparisons only. Worst case: none. Output: steepest value in the input's format,
 * ages in working samples.
 */
struct ss_upstroke_finder {
    int32_t longest;
    int32_t age;
    bool is_rising;
    int32_t steepest; /* Steepest value of the upstroke. */
    int32_t since_steepest; /* Working samples since that value. */
    int32_t before; /* The last value before the end of the upstroke, positive. */
    int32_t after; /* The value at the end of the upstroke, not positive unless it took too long. */
};

/*
 * Forgets.
 * longest: Longest upstroke [working samples].
 */
void ss_upstroke_finder_restart(ss_upstroke_finder_t *self, int32_t longest);

/*
 * Takes the next slope.
 * slope: The slope.
 * threshold: What it has to pass for a start.
 * Returns: Whether an upstroke has ended.
 */
static inline bool ss_upstroke_finder_next(ss_upstroke_finder_t *self, int32_t slope, int32_t threshold);

/* Where the slope passes zero between the last two watched samples, by a straight line [1/256 working sample after the first]; once per pulse. */
int32_t ss_upstroke_finder_zero_crossing256(const ss_upstroke_finder_t *self);

static inline bool ss_upstroke_finder_next(ss_upstroke_finder_t *self, int32_t slope, int32_t threshold)
{
    if (!self->is_rising) {
        if (slope <= threshold) {
            return false;
        }

        self->is_rising = true;
        self->age = 0;
        self->steepest = 0;
    }

    if (slope > self->steepest) {
        self->steepest = slope;
        self->since_steepest = 0;
    }
    else {
        self->since_steepest++;
    }

    bool is_so = slope > 0;
    if (is_so) {
        self->age++;
        int32_t value = self->age;
        is_so = value < self->longest;
    }
    if (is_so) {
        self->before = slope;
        return false;
    }

    self->after = slope;
    self->is_rising = false;
    return true;
}

#endif
