/* Generated from SensorSim.Detection/Beats/PeakFinder.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_PEAK_FINDER_H
#define SS_BEATS_PEAK_FINDER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Third stage: humps of the integrated magnitude that stay the highest for a holding time.
 * Input: 31 bits unsigned. Product: none. Accumulator: none, comparisons only. Worst case: none. Output: height in the input's format, age in
 * working samples.
 */
struct ss_peak_finder {
    int32_t lowest;
    int32_t hold;
    bool is_rising;
    int32_t height; /* Height of the hump held or just found. */
    int32_t age; /* Working samples since that height. */
};

/* Whether a hump is held that has not been decided. */
static inline bool ss_peak_finder_is_holding(const ss_peak_finder_t *self);

/*
 * Forgets the hump held.
 * hold: Holding time [working samples].
 */
void ss_peak_finder_restart(ss_peak_finder_t *self, int32_t hold);

/*
 * Takes the next value.
 * value: Integrated magnitude.
 * Returns: Whether a hump has stayed the highest for the holding time.
 */
static inline bool ss_peak_finder_next(ss_peak_finder_t *self, int32_t value);

static inline bool ss_peak_finder_is_holding(const ss_peak_finder_t *self)
{
    return self->is_rising;
}

static inline bool ss_peak_finder_next(ss_peak_finder_t *self, int32_t value)
{
    if (!self->is_rising) {
        if (value <= self->lowest) {
            self->lowest = value;
            return false;
        }

        /* A rise of an eighth above the valley starts a hump. */
        if ((value - self->lowest) <= ss_shift_right32(self->lowest, 3)) {
            return false;
        }

        self->is_rising = true;
        self->height = value;
        self->age = 0;
        return false;
    }

    if (value > self->height) {
        self->height = value;
        self->age = 0;
        return false;
    }

    self->age++;
    int32_t value_2 = self->age;
    if (value_2 < self->hold) {
        return false;
    }

    self->is_rising = false;
    self->lowest = value;
    return true;
}

#endif
