/* Generated from SensorSim.Detection/Beats/BeatShape.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_SHAPE_H
#define SS_BEATS_BEAT_SHAPE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_words.h"

#define SS_BEAT_SHAPE_MASK 255
#define SS_BEAT_SHAPE_BEFORE 7

/*
 * Reads the shape of a complex from the held ECG, and looks for a known shape near a place.
 * Input: codes, or sums of up to four, 26 bits. Product: slopes of 12 bits and sign with those of a template. Accumulator: 32 bits; smoothed
 * values times 4: 28 bits, their differences 29 bits before they are scaled. Worst case: 2^29. Output: sixteen slopes, 12 bits and sign, and
 * their shift.
 */
struct ss_beat_shape {
    ss_word32_t area;
    int32_t scale;
    int32_t at; /* Place that fits best, relative to the middle [working samples]. */
};

/*
 * Slopes round a place.
 * w: Lengths.
 * ecg: Held ECG.
 * at: The place, modulo 256.
 * slopes: The slopes.
 * Returns: Their shift.
 */
int32_t ss_beat_shape_read(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at, ss_slopes16_t *slopes);

/*
 * Reads the surroundings of a middle for find.
 * w: Lengths.
 * ecg: Held ECG.
 * middle: The middle, modulo 256.
 */
void ss_beat_shape_survey(ss_beat_shape_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t middle);

/*
 * The place in the surroundings where the template fits best.
 * w: Lengths.
 * template: The template.
 * Returns: How well it fits there [1/256].
 */
int32_t ss_beat_shape_find(ss_beat_shape_t *self, const ss_beat_windows_t *w, const ss_beat_template_t *template);

#endif
