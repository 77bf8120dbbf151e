/* Generated from SensorSim.Detection/Gate/JointGate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_JOINT_GATE_H
#define SS_GATE_JOINT_GATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/gate_reason.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"
#include "gate/half8.h"

/* Of the last eight beats and pulses: how many must have a partner. */
#define SS_JOINT_GATE_PAIRED_TO_OPEN 6
#define SS_JOINT_GATE_PAIRED_TO_STAY 5
#define SS_JOINT_GATE_FEWEST_OUTCOMES 4
/* Arrival times of one heart lie this close to their median, chance ones are spread over 370 ms. */
#define SS_JOINT_GATE_REACH_US 16000
/* A single one this far off is held back. */
#define SS_JOINT_GATE_ODD_US 7000
#define SS_JOINT_GATE_STRAY_TO_OPEN 1
#define SS_JOINT_GATE_STRAY_TO_STAY 2
/*
 * From beat to beat arrival times change by this much in the mean, at most: their spread is 0.9 of it, and single ones have to be right within
 * 10 ms.
 */
#define SS_JOINT_GATE_CHANGE_TO_OPEN_US 9000
#define SS_JOINT_GATE_CHANGE_TO_STAY_US 13000
/* A single one is given while they change by no more than this: then one that is off stands out. */
#define SS_JOINT_GATE_CHANGE_TO_GIVE_US 8000
#define SS_JOINT_GATE_HELD_BY_GATES 1
#define SS_JOINT_GATE_HELD_AS_ODD 2
#define SS_JOINT_GATE_SILENCE_MS 4000
#define SS_JOINT_GATE_MASK 7

/*
 * Whether both signals are steady and go together, one pulse to a beat. A value of fixed size: an assignment copies the whole state.
 * Input: both gates, arrival times in units of 16 µs (15 bits), beats and pulses without a partner. Product: none. Accumulator: 32 bits. Worst
 * case: arrival times above 524 ms clip. Output: open or shut with a reason; a quality of 0 to 255.
 */
struct ss_joint_gate {
    ss_gate_time_t time;
    ss_gate_latch_t latch;
    ss_gate_half8_t arrivals;
    int64_t last256;
    uint8_t outcomes;
    uint8_t outcome_count;
    uint8_t arrival_at;
    uint8_t arrival_count;
    uint8_t stray;
    uint8_t held;
    int16_t change;
};

/* Whether an arrival time may be given now. */
static inline bool ss_joint_gate_is_open(const ss_joint_gate_t *self);

/* Whether an arrival time may enter a median of many: single ones that are off do not move it. */
static inline bool ss_joint_gate_is_open_for_median(const ss_joint_gate_t *self);

/* Why the gate is shut; none while it is open, even while a single beat is held back. */
static inline ss_gate_reason_t ss_joint_gate_reason(const ss_joint_gate_t *self);

/* When the gate last opened or shut [1/256 tick]. */
static inline int64_t ss_joint_gate_since_ticks256(const ss_joint_gate_t *self);

/* Trust, 0 to 255; 0 while shut. */
static inline uint8_t ss_joint_gate_quality(const ss_joint_gate_t *self);

/*
 * Shuts, waiting, and forgets.
 * clock: The common clock.
 */
void ss_joint_gate_start_1(ss_joint_gate_t *self, ss_common_clock_t clock);

/*
 * Shuts, waiting, and forgets.
 * clock: The common clock.
 * tuning: How strict it is.
 */
void ss_joint_gate_start_2(ss_joint_gate_t *self, ss_common_clock_t clock, const ss_tuning_t *tuning);

/*
 * An R peak and a foot were paired.
 * ticks256: The foot [1/256 tick].
 * time_us: Arrival time [µs].
 */
void ss_joint_gate_arrival(ss_joint_gate_t *self, int64_t ticks256, int32_t time_us);

/*
 * An R peak found no foot, or a foot no R peak.
 * ticks256: Its place [1/256 tick].
 */
void ss_joint_gate_unpaired(ss_joint_gate_t *self, int64_t ticks256);

/*
 * Time goes on: judges anew, after both gates have.
 * ecg: The gate of the ECG.
 * pulse: The gate of the light.
 * ticks256: Now [1/256 tick], never less than before.
 * Returns: Whether the gate opened or shut.
 */
bool ss_joint_gate_advance(ss_joint_gate_t *self, const ss_ecg_gate_t *ecg, const ss_pulse_gate_t *pulse, int64_t ticks256);

int32_t ss_joint_gate_paired(const ss_joint_gate_t *self);

static inline bool ss_joint_gate_is_open(const ss_joint_gate_t *self)
{
    return self->latch.is_open && (self->held == 0);
}

static inline bool ss_joint_gate_is_open_for_median(const ss_joint_gate_t *self)
{
    return self->latch.is_open && ((self->held & SS_JOINT_GATE_HELD_BY_GATES) == 0);
}

static inline ss_gate_reason_t ss_joint_gate_reason(const ss_joint_gate_t *self)
{
    return self->latch.reason;
}

static inline int64_t ss_joint_gate_since_ticks256(const ss_joint_gate_t *self)
{
    return self->latch.since_ticks256;
}

static inline uint8_t ss_joint_gate_quality(const ss_joint_gate_t *self)
{
    return (uint8_t)(ss_joint_gate_is_open(self) ? (uint8_t)(255 - (24 * (self->outcome_count - ss_joint_gate_paired(self)))
        - (24 * self->stray)) : 0);
}

#endif
