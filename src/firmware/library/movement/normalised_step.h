/* Generated from SensorSim.Detection/Movement/NormalisedStep.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_NORMALISED_STEP_H
#define SS_MOVEMENT_NORMALISED_STEP_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Bits of a weight behind the point. */
#define SS_NORMALISED_STEP_WEIGHT_BITS 20
/* Largest magnitude of a weight. */
#define SS_NORMALISED_STEP_WEIGHT_RAIL 1073741824
/* Largest magnitude of an estimate. */
#define SS_NORMALISED_STEP_ESTIMATE_RAIL 16777215

/*
 * What the functions make with the weights.
 * weights: Weights.
 * functions: Functions.
 */
int32_t ss_normalised_step_estimate(const ss_word12_t *weights, const ss_word12_t *functions);

/*
 * Moves some of the weights.
 * weights: Weights.
 * functions: Functions.
 * first: First of those that move.
 * count: How many.
 * error: What is left of the input.
 * power_bits: b: the power of these functions lies below 2^b.
 * step_shift: μ = 2^−stepShift.
 */
void ss_normalised_step_learn(ss_word12_t *weights, const ss_word12_t *functions, int32_t first, int32_t count, int32_t error,
    int32_t power_bits, int32_t step_shift);

/*
 * Takes a part off every weight.
 * weights: Weights.
 * bits: The part is 2^−bits.
 */
void ss_normalised_step_shrink(ss_word12_t *weights, int32_t bits);

#endif
