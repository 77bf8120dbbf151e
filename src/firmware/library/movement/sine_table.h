/* Generated from SensorSim.Detection/Movement/SineTable.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_SINE_TABLE_H
#define SS_MOVEMENT_SINE_TABLE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Sine, Q1.15.
 * angle: 1/256 of a circle, modulo 256.
 * Input: 8 bits. Product: none. Accumulator: none. Worst case: ±32767. Output: Q1.15, rounded to nearest.
 */
int32_t ss_sine_table_sine(int32_t angle);

/*
 * Cosine, Q1.15.
 * angle: 1/256 of a circle, modulo 256.
 */
int32_t ss_sine_table_cosine(int32_t angle);

/*
 * Sine of an angle between the places of the table, by straight lines.
 * angle16: 1/65536 of a circle.
 * Input: 16 bits. Product: difference of neighbours 10 bits × 8 bits. Accumulator: 32 bits. Worst case: ±32767; off by at most 3. Output:
 * Q1.15.
 */
int32_t ss_sine_table_fine(int32_t angle16);

#endif
