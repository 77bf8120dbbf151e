/* Generated from SensorSim.Detection/Movement/HalfRing.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_HALF_RING_H
#define SS_MOVEMENT_HALF_RING_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/movement_words.h"

#define SS_HALF_RING_HIGH 16384
#define SS_HALF_RING_LOW 2048

/*
 * The last eight seconds of a signal in halves of a word with one common exponent.
 * Input: 30 bits. Product: none. Accumulator: none. Worst case: what does not fit into 15 bits makes the exponent grow, by a pass over the
 * ring. Output: value / 2^exponent, rounded to nearest, at most 2^14; at least 2^11 somewhere after settle unless the signal is weaker.
 */
struct ss_half_ring {
    ss_half104_t held;
    int32_t at;
    int32_t length;
    int32_t exponent; /* A word stands for word × 2^exponent. */
};

/*
 * Sets the length and fills with 0.
 * length: 1 to 104.
 */
void ss_half_ring_restart(ss_half_ring_t *self, int32_t length);

/* Value held for a number of steps. */
int32_t ss_half_ring_at(const ss_half_ring_t *self, int32_t age);

/*
 * Takes the next value in the place of the oldest.
 * value: The value.
 */
void ss_half_ring_add(ss_half_ring_t *self, int32_t value);

/* Gives back bits that the signal does not need any more; for use once a window. */
void ss_half_ring_settle(ss_half_ring_t *self);

#endif
