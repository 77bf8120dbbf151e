/* Generated from SensorSim.Detection/Movement/RateTrack.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_RATE_TRACK_H
#define SS_MOVEMENT_RATE_TRACK_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/movement_words.h"

/*
 * In 32 log2. A path may change by one bin (3 bpm) in two seconds almost freely, by two at a price; a new one can take over within a dozen
 * seconds.
 */
#define SS_RATE_TRACK_ONE_BIN 3
#define SS_RATE_TRACK_TWO_BINS 15
#define SS_RATE_TRACK_MOST 150
/* Windows of 8 s every 2 s share three quarters of their samples: a quarter of the evidence is new. */
#define SS_RATE_TRACK_NEW_SHARE_SHIFT 5
#define SS_RATE_TRACK_UNIT_SHIFT 3
/* States to each side that count as the same peak: half the main lobe of the window, and one. */
#define SS_RATE_TRACK_NEIGHBOURS 4

/*
 * What speaks for each heart rate, from window to window: the best path that ends there (Viterbi 1967, forward half).
 * Input: evidence of each state, 256 log2 of a likelihood, 13 bits. Product: none. Accumulator: 32 bits; kept as arrears to the best, which
 * has 0, in eighths of that: 8 bits. Worst case: arrears clip at 150 × 8 = 1200. Output: the best state, and by how much it is ahead of any
 * that is not its neighbour.
 */
struct ss_rate_track {
    ss_byte80_t arrears;
    int32_t states;
    int32_t best; /* The best state. */
    int32_t margin; /* By how much it is ahead of all states that lie beyond neighbours, 256 log2. */
};

/*
 * Sets the number of states and forgets.
 * states: 1 to 80.
 */
void ss_rate_track_restart(ss_rate_track_t *self, int32_t states);

/*
 * Takes the evidence of a window.
 * evidence: Of each state.
 */
void ss_rate_track_add(ss_rate_track_t *self, const ss_half80_t *evidence);

#endif
