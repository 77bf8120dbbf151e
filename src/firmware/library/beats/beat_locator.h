/* Generated from SensorSim.Detection/Beats/BeatLocator.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_LOCATOR_H
#define SS_BEATS_BEAT_LOCATOR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_BEAT_LOCATOR_MASK 255

/*
 * Fifth stage, once per hump: finds the QRS complex in the held ECG and the R peak inside it.
 * Input: codes (or sums of up to four), 26 bits. Product: none. Accumulator: 32 bits; sums of up to 5 samples, differences one bit more. Worst
 * case: 2^26 × 5 below 2^29. Output: place in 1/256 of a working sample, deviation in codes (or their sums), slope per two slope arms.
 */
struct ss_beat_locator {
    int64_t position256; /* Place of the R peak [1/256 working sample]. */
    int32_t deviation; /* Deviation of the R peak from the level before the complex, sign kept. */
    int32_t slope; /* Steepest slope of the complex, as a difference over two slope arms. */
};

/*
 * Looks round a middle for the steepest place and takes the complex round it.
 * w: Lengths.
 * ecg: The latest 256 working samples, sample k at place k modulo 256.
 * middle: Working sample in the middle of the complex.
 * last: Newest working sample held.
 */
void ss_beat_locator_locate(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int64_t middle, int64_t last);

/*
 * Takes the complex whose R peak is known to lie near a place.
 * w: Lengths.
 * ecg: Held ECG.
 * near_: The place.
 * last: Newest working sample held.
 */
void ss_beat_locator_locate_near(ss_beat_locator_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int64_t near_, int64_t last);

#endif
