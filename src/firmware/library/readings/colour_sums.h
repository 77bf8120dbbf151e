/* Generated from SensorSim.Detection/Readings/ColourSums.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_COLOUR_SUMS_H
#define SS_READINGS_COLOUR_SUMS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/long_division.h"

/*
 * Ratio of ratios of one pulse: the slope of red on infrared, with each product taken between neighbouring values.
 * A plain regression divides by the power of infrared with its own noise, so weak pulses read low ratios. White noise of one value has nothing
 * in common with that of the next one (they are sums of different samples), while the pulse has nearly all: with products x(n) x(n−1) and
 * (x(n) y(n−1) + y(n) x(n−1)) / 2 the noise falls out of the mean of both. (Regression with a lagged instrument: textbook; from memory.)
 * Input: values of 26 bits, levels of 29 bits. Product: 52 bits. Accumulator: 64 bits; twice 128 products: 60 bits. Levels: 36 bits. Worst
 * case: 128 values; more are refused by the owner. Output: ratio in 1/10,000, rounded to nearest; two long divisions per pulse.
 */
struct ss_colour_sums {
    int64_t cross;
    int64_t infrared_power;
    int64_t red_power;
    int64_t red_level;
    int64_t infrared_level;
    int32_t red_before;
    int32_t infrared_before;
    int16_t count; /* Values in the sums. */
};

/* Mean sum of infrared light; divides, once per pulse. */
static inline int32_t ss_colour_sums_infrared_level(const ss_colour_sums_t *self);

/*
 * Power of infrared in the pulse band, in quarters of an octave; 0 when there is none.
 * shift: The shift of the values: a coarser scale must not change the answer.
 */
int32_t ss_colour_sums_quarters(const ss_colour_sums_t *self, int32_t shift);

/* Begins a new pulse; the latest values stay as neighbours of the next. */
void ss_colour_sums_clear(ss_colour_sums_t *self);

/*
 * Takes a pair.
 * red: Red in the pulse band.
 * infrared: Infrared in the pulse band, same scale.
 * red_sum: Red light.
 * infrared_sum: Infrared light.
 */
void ss_colour_sums_add(ss_colour_sums_t *self, int32_t red, int32_t infrared, int32_t red_sum, int32_t infrared_sum);

/*
 * The ratio of the pulse.
 * ratio: Receives the ratio [1/10,000].
 * Returns: Whether both colours beat together: their squared correlation is at least a half, and levels are above 0.
 */
bool ss_colour_sums_try_ratio(const ss_colour_sums_t *self, int32_t *ratio);

static inline int32_t ss_colour_sums_infrared_level(const ss_colour_sums_t *self)
{
    return ((self->count == 0) || (self->infrared_level <= INT64_C(0))) ? 0
        : ss_long_division_rounded((uint64_t)self->infrared_level, (uint32_t)self->count);
}

#endif
