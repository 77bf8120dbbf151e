/* Generated from SensorSim.Detection/Beats/BeatTemplate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_TEMPLATE_H
#define SS_BEATS_BEAT_TEMPLATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_words.h"
#include "fixed_point/words.h"

/*
 * What one kind of beats looks like: sixteen slopes, and how large they are.
 * Input: slopes of 12 bits and sign, in units that differ from beat to beat (the shape is kept, not the size). Product: 13 × 13 bits.
 * Accumulator: 32 bits; sixteen products of 24 bits and sign stay below 2^29. Worst case: 16 × 2^24 = 2^28. Output: likeness in 1/256
 * (correlation of the slopes), size in slopes.
 */
struct ss_beat_template {
    ss_slopes16_t slopes;
    ss_word8_t sizes;
    int32_t energy;
    uint32_t root;
    int32_t size_at;
    int32_t count; /* Beats in it, up to 8. */
    int32_t size; /* Typical size, the median of eight. */
    int32_t spread; /* How far its slopes reach from their centre, see spread_of. */
};

/*
 * Sum of the squares of the slopes.
 * slopes: Slopes.
 */
int32_t ss_beat_template_energy(const ss_slopes16_t *slopes);

/*
 * Sum of the products with the template.
 * slopes: Slopes.
 */
int32_t ss_beat_template_dot_1(const ss_beat_template_t *self, const ss_slopes16_t *slopes);

/*
 * Sum of the products of the template with slopes from a place on.
 * area: Slopes, 12 bits and sign.
 * from: The place, 0 to 16.
 */
int32_t ss_beat_template_dot_2(const ss_beat_template_t *self, const ss_word32_t *area, int32_t from);

/*
 * Correlation of the slopes [1/256] from sums of products; one division.
 * dot: Products with the template.
 * energy: Squares.
 */
int32_t ss_beat_template_fit(const ss_beat_template_t *self, int32_t dot, int32_t energy);

/*
 * Size of the part that is like the template; one division.
 * dot: Products with the template.
 * scale: Shift of the slopes.
 */
int32_t ss_beat_template_size_of(const ss_beat_template_t *self, int32_t dot, int32_t scale);

/*
 * Forgets everything and takes one beat.
 * slopes: Its slopes.
 * scale: Their shift.
 */
void ss_beat_template_begin(ss_beat_template_t *self, const ss_slopes16_t *slopes, int32_t scale);

/*
 * Takes one more beat: an eighth of it, more while there are few.
 * slopes: Its slopes.
 * size: Its size.
 */
void ss_beat_template_add(ss_beat_template_t *self, const ss_slopes16_t *slopes, int32_t size);

/*
 * How far the slopes reach from their centre: variance of their places, weighted by their squares [1/16 step²]; two divisions.
 * slopes: Slopes.
 */
int32_t ss_beat_template_spread_of(const ss_slopes16_t *slopes);

#endif
