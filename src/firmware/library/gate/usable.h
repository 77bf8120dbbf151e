/* Generated from SensorSim.Detection/Gate/Usable.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_USABLE_H
#define SS_GATE_USABLE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Lost samples disturb nothing but themselves: detectors bridge a quarter of a second, and start anew after more. One beat may fall into this
 * much.
 */
#define SS_USABLE_LOST_MS 1000
/* A saturated or open input rings for longer than it lasts; a few clamped samples do not. */
#define SS_USABLE_FLAGGED_MS 100
/* Three seconds of good signal come before a reading. */
#define SS_USABLE_SETTLE_MS 3000
/* Time for a detector to start anew: two seconds of learning and some beats. */
#define SS_USABLE_RECENT_MS 5000

/*
 * Whether a channel's samples can be used, from its status words and from what did not come.
 * Input: begins and ends of unusable stretches, in order of time. Product: none. Accumulator: 64 bits of time. Worst case: one stretch after
 * the other; each counts from its own begin. Output: a reason, or none.
 */
struct ss_usable {
    int64_t from256;
    ss_gate_reason_t reason;
    bool is_long;
    bool is_bad; /* Whether samples are unusable now. */
};

/*
 * A stretch of unusable samples begins or goes on.
 * ticks256: Now [1/256 tick].
 * flags: Status bits (sample_flags); 0 when samples do not come.
 */
void ss_usable_bad(ss_usable_t *self, int64_t ticks256, uint16_t flags);

/*
 * Usable samples come again.
 * time: The unit of time.
 * ticks256: The first of them [1/256 tick].
 * Returns: Whether the stretch was so long that what was known of the signal is void.
 */
bool ss_usable_good(ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256);

/*
 * Why no reading may be given; none when one may.
 * time: The unit of time.
 * ticks256: Now [1/256 tick].
 */
ss_gate_reason_t ss_usable_judge(ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256);

/*
 * What was wrong with the samples a short while ago: it may be why nothing is found.
 * time: The unit of time.
 * ticks256: Now [1/256 tick].
 */
ss_gate_reason_t ss_usable_recent(const ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256);

#endif
