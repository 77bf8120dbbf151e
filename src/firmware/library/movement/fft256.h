/* Generated from SensorSim.Detection/Movement/Fft256.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_FFT256_H
#define SS_MOVEMENT_FFT256_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Points. */
#define SS_FFT256_LENGTH 256
#define SS_FFT256_HALF 16384

/*
 * Where the number of a place has to be put.
 * place: 0 to 255.
 */
int32_t ss_fft256_reversed(int32_t place);

/*
 * Transforms with e^(−2πi nk / 256).
 * re: Real parts.
 * im: Imaginary parts.
 */
void ss_fft256_transform(ss_word256_t *re, ss_word256_t *im);

#endif
