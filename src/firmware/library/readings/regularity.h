/* Generated from SensorSim.Detection/Readings/Regularity.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_REGULARITY_H
#define SS_READINGS_REGULARITY_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* With more odd ones than half of them the rhythm itself is irregular. */
#define SS_REGULARITY_MOST_ODD 4

/*
 * How many of the newest intervals come after what looks like a detector's mistake; all of them when nothing does. 0 when the latest alone is
 * short: that cannot be told yet.
 * recent: Intervals, oldest first.
 * count: How many, 4 to 8.
 * is_regular: Whether those are alike.
 */
int32_t ss_regularity_usable(const ss_word8_t *recent, int32_t count, bool *is_regular);

#endif
