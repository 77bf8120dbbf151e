/* Generated from SensorSim.Detection/Pulses/CubicFit.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_CUBIC_FIT_H
#define SS_PULSES_CUBIC_FIT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Fraction bits of the weights. */
#define SS_CUBIC_FIT_WEIGHT_BITS 14
/* Bits the differences may have. */
#define SS_CUBIC_FIT_INPUT_BITS 15
#define SS_CUBIC_FIT_MASK 255

#define SS_CUBIC_FIT_WEIGHTS16_LENGTH 16

/* Below 2^15, as their magnitudes' sum is. */
struct ss_cubic_fit_weights16 {
    int16_t at[16];
};

/*
 * Slope and level in the middle of the least-squares cubic through 2m + 1 samples, as fixed weights.
 * Input: differences of samples, brought to 15 bits by the caller's shift. Product: 15 bits × Q2.14. Accumulator: 32 bits; magnitudes of the
 * weights sum to less than 2^15, so 2^30 is not passed. Worst case: all differences at the rail with the signs of the weights, below 2^30.
 * Output: value × 2^14; a straight line's slope per working sample and a constant come out with gain 2^14.
 */
struct ss_cubic_fit {
    ss_cubic_fit_weights16_t slope;
    ss_cubic_fit_weights16_t level;
    int32_t arm;
};

/* Half-width m [working samples]. */
static inline int32_t ss_cubic_fit_arm(const ss_cubic_fit_t *self);

/*
 * Computes the weights. Wide integers and divisions, at start-up only.
 * arm: Half-width m, 2 to 15 working samples.
 */
void ss_cubic_fit_restart(ss_cubic_fit_t *self, int32_t arm);

/*
 * Slope of the fit × 2^14, per working sample.
 * held: The latest 256 working samples, sample k at place k modulo 256.
 * at: Place of the middle.
 * shift: Right shift that brings differences within the fit to 15 bits.
 */
int32_t ss_cubic_fit_slope(const ss_cubic_fit_t *self, const ss_word256_t *held, int32_t at, int32_t shift);

/*
 * Level of the fit above a reference × 2^14.
 * held: The latest 256 working samples, sample k at place k modulo 256.
 * at: Place of the middle.
 * reference: The reference, in the samples' own unit.
 * shift: Right shift that brings differences from the reference to 15 bits.
 */
int32_t ss_cubic_fit_level(const ss_cubic_fit_t *self, const ss_word256_t *held, int32_t at, int32_t reference, int32_t shift);

static inline int32_t ss_cubic_fit_arm(const ss_cubic_fit_t *self)
{
    return self->arm;
}

#endif
