/* Generated from SensorSim.Detection/Readings/BreathSpectrum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_BREATH_SPECTRUM_H
#define SS_READINGS_BREATH_SPECTRUM_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_BREATH_SPECTRUM_LOWEST_RATE 4
#define SS_BREATH_SPECTRUM_HIGHEST_RATE 40
#define SS_BREATH_SPECTRUM_RATES 37
#define SS_BREATH_SPECTRUM_TURN 120
#define SS_BREATH_SPECTRUM_REACH 3
#define SS_BREATH_SPECTRUM_POWER_BITS 29

/*
 * The strongest rate from 4 to 40 per minute in a series of half seconds: a discrete Fourier transform at each whole rate.
 * A straight line is taken off first; the window is Welch's parabola n (63 − n) (Welch 1967), which needs no table. Input: 64 values of 8
 * bits. Product: detrended value Q9.4 (13 bits) × window (10 bits): 23 bits; less 4 bits, up to six folded (21 bits), × cosine Q1.14: 36 bits.
 * Accumulator: 64 bits for the sum, 39 bits; less 16 bits and squared: 46 bits, shortened together to 29. Worst case: a square wave of full
 * range. Output: rate in 1/1000 per minute by a parabola through three powers; clarity: share of the power within ±3 per minute, 0 to 255.
 * 1,700 products for each of three series, every 5 s.
 */
struct ss_breath_spectrum {
    int32_t rate_milli; /* The strongest rate [1/1000 per minute]. */
    int32_t clarity; /* How much of the power lies round it, 0 to 255; 0 when there is no top inside the range. */
};

struct ss_breath_spectrum_folds {
    int32_t at[31];
};

struct ss_breath_spectrum_folded {
    ss_breath_spectrum_folds_t even;
    ss_breath_spectrum_folds_t odd;
    int32_t last;
};

struct ss_breath_spectrum_powers {
    int64_t at[37];
};

/*
 * Looks for the rate.
 * series: A full series.
 */
ss_breath_spectrum_t ss_breath_spectrum_of(const ss_breath_series_t *series);

#endif
