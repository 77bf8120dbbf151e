/* Generated from SensorSim.Detection/Readings/ColourBand.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_COLOUR_BAND_H
#define SS_READINGS_COLOUR_BAND_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_COLOUR_BAND_FRACTION 8
#define SS_COLOUR_BAND_CORNER 3
#define SS_COLOUR_BAND_LIMIT 33554431

/*
 * One colour's pulse band for the ratio of ratios: two first-order high-passes on sums of samples at about 25 Hz.
 * Input: sums of up to 20 codes of 24 bits, 29 bits. Product: none. Accumulator: 64 bits, Q.8 of the sums; 37 bits used. Worst case: full
 * swing from sample to sample, 39 bits; the output clips at 25 bits. Output: Q.8 of the sums less a shift, rounded to nearest. −3 dB each at
 * rate / (2π · 7.5), 0.5 Hz at 25 Hz; the sums make zeros at 25 Hz. Both colours pass the same filter, so what it does to the shape of the
 * pulse cancels in the ratio.
 */
struct ss_colour_band {
    int64_t slow;
    int64_t slower;
};

/*
 * Behaves as if a constant had always come in.
 * sum: The constant.
 */
void ss_colour_band_restart(ss_colour_band_t *self, int32_t sum);

/*
 * Takes the next sum.
 * sum: The sum.
 * shift: How much coarser the output is.
 * Returns: The pulse.
 */
int32_t ss_colour_band_next(ss_colour_band_t *self, int32_t sum, int32_t shift);

#endif
