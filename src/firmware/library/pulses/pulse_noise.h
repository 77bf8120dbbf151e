/* Generated from SensorSim.Detection/Pulses/PulseNoise.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_NOISE_H
#define SS_PULSES_PULSE_NOISE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "fixed_point/words.h"

#define SS_PULSE_NOISE_MASK 255
#define SS_PULSE_NOISE_LIMIT 33554432
#define SS_PULSE_NOISE_BLOCKS_AT_ONCE 4

/*
 * Side stage, twice a second: how much of the watched slope is noise, from third differences where the pulse is flat.
 * Input: working samples of 27 bits. Product: mean magnitude × a UQ4.8 factor, 38 bits. Accumulator: magnitudes clipped at 2^25, at most 20 of
 * them: 30 bits. Worst case: all at the clip. Output: standard deviation of the watched slope for white noise, in its format; the fourth
 * lowest of eight blocks of 100 ms, because upstrokes fill at most half of them. Reads white noise some 10 % low and scatters by 15 %.
 */
struct ss_pulse_noise {
    ss_word8_t blocks;
    int32_t at;
    int32_t factor;
    int32_t level; /* The noise, in the format of the slope. */
};

/*
 * Sets lengths and drops what was learned. Divides: at start-up only.
 * windows: Lengths.
 */
void ss_pulse_noise_start(ss_pulse_noise_t *self, const ss_pulse_windows_t *windows);

/*
 * Looks at the last 400 ms and estimates anew.
 * held: The latest 256 working samples, sample k at place k modulo 256.
 * at: Place of the latest.
 * w: Lengths.
 */
void ss_pulse_noise_estimate(ss_pulse_noise_t *self, const ss_word256_t *held, int32_t at, const ss_pulse_windows_t *w);

#endif
