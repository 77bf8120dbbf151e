/* Generated from SensorSim.Detection/Pulses/Ranks.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_RANKS_H
#define SS_PULSES_RANKS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * One of eight numbers by its place in their order.
 * values: The numbers; left as they are.
 * rank: How many come before it, 0 to 7.
 * Input: 32 bits, any common format. Product: none. Accumulator: none, comparisons only. Worst case: none. Output: one of the numbers; 56
 * comparisons, called once per beat or ten times a second.
 */
int32_t ss_ranks_of_eight(const ss_word8_t *values, int32_t rank);

#endif
