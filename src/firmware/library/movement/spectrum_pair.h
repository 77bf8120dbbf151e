/* Generated from SensorSim.Detection/Movement/SpectrumPair.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_SPECTRUM_PAIR_H
#define SS_MOVEMENT_SPECTRUM_PAIR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

/* Bins that are made, 1 to 127. */
#define SS_SPECTRUM_PAIR_BINS 128
#define SS_SPECTRUM_PAIR_POWER_BITS 24

/*
 * Power spectra of two real signals by one complex transform.
 * Input: two rings of 15 bits, with an exponent each. Product: sample × Hann window Q1.15, rounded to 19 bits; squares of 26 bits, twice: 53
 * bits. Accumulator: 64 bits for powers. Worst case: a full-scale line: 2^18 × 52 × ½. Output: 24 bits, the largest power of each signal at
 * least 2^23; relative_shift says what the second has to be shifted by.
 */
struct ss_spectrum_pair {
    ss_word256_t first; /* Power of the first signal. */
    ss_word256_t second; /* Power of the second signal. */
    int32_t relative_shift; /* The second's power × 2^this has the weight of the first's. */
};

/*
 * Makes both spectra.
 * first: First signal.
 * second: Second signal.
 * length: Samples, up to 104; the rest is 0.
 * hann_step16: Half a circle over that length [1/65536 circle].
 */
void ss_spectrum_pair_make(ss_spectrum_pair_t *self, const ss_half_ring_t *first, const ss_half_ring_t *second, int32_t length,
    int32_t hann_step16);

/*
 * Gives the second signal the first's weight, and each bin from 1 to 126 the largest power of itself and its neighbours: what nobody measured
 * need not be at the very same frequency.
 * In place, for a third array would be a kilobyte of stack.
 */
void ss_spectrum_pair_spread(ss_spectrum_pair_t *self);

#endif
