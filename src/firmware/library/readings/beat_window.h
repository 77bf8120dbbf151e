/* Generated from SensorSim.Detection/Readings/BeatWindow.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_BEAT_WINDOW_H
#define SS_READINGS_BEAT_WINDOW_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "readings/beat_clock.h"
#include "readings/rings.h"

#define SS_BEAT_WINDOW_STEPS_PER_SECOND 4096
#define SS_BEAT_WINDOW_MASK 7

/*
 * How far back the last eight pulses reach, for readings that are means over them.
 * Input: places in 1/256 tick. Product: none. Accumulator: 32 bits for eight intervals of 16 bits, in steps of 1/4096 s. Worst case: an
 * interval of 16 s or more clips and ends the row. Output: 1/256 tick, within 1 ms over eight intervals; two long divisions per pulse.
 */
struct ss_beat_window {
    ss_readings_half8_t intervals;
    ss_beat_clock_t clock;
    uint8_t at;
    bool has_last;
    int64_t end256; /* The latest place [1/256 tick]. */
};

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_beat_window_start(ss_beat_window_t *self, ss_common_clock_t clock);

/*
 * Takes a place.
 * ticks256: The place [1/256 tick].
 * starts_run: Whether what came before does not belong to it.
 * Returns: Whether the places before still count.
 */
bool ss_beat_window_add(ss_beat_window_t *self, int64_t ticks256, bool starts_run);

/*
 * From the oldest to the latest of so many places [1/256 tick].
 * places: 1 to 8.
 */
int64_t ss_beat_window_length256(const ss_beat_window_t *self, int32_t places);

#endif
