/* Generated from SensorSim.Detection/Gate/GateLatch.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_GATE_LATCH_H
#define SS_GATE_GATE_LATCH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* An opening that did not last this long was premature: the next wait doubles, twice at most. */
#define SS_GATE_LATCH_SHORTEST_OPEN_MS 10000
#define SS_GATE_LATCH_MOST_DOUBLINGS 2
/* This long without a fault clears the record. */
#define SS_GATE_LATCH_FORGIVEN_AFTER_MS 30000

/*
 * Open or shut, since when and why: shuts at once, opens again only after a time that grows when it shuts soon after.
 * Input: a reason to be shut, or none, in order of time. Product: none. Accumulator: none; 64 bits of time. Worst case: shut and open again
 * every 3 s, as contact comes and goes; when the signal itself is doubtful, every 12 s. Output: a state and its reason.
 */
struct ss_gate_latch {
    int16_t shortest_shut_ms;
    uint8_t doublings;
    bool was_open;
    bool is_open; /* Whether it is open. */
    ss_gate_reason_t reason; /* Why it is shut; none while it is open. */
    int64_t since_ticks256; /* When it last opened or shut [1/256 tick]. */
};

/*
 * Shut, waiting, from time 0.
 * shortest_shut_ms: Shut at least this long [ms]: three seconds are about three beats, the least that a trend of them can be seen in.
 */
void ss_gate_latch_start(ss_gate_latch_t *self, int32_t shortest_shut_ms);

/*
 * Takes the present judgement.
 * time: The unit of time.
 * ticks256: Now [1/256 tick].
 * reason: Why it should be shut; none when it should be open.
 * Returns: Whether it opened or shut.
 */
bool ss_gate_latch_next(ss_gate_latch_t *self, const ss_gate_time_t *time, int64_t ticks256, ss_gate_reason_t reason);

#endif
