/* Generated from SensorSim.Detection/Gate/EcgGate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_ECG_GATE_H
#define SS_GATE_ECG_GATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/gate_reason.h"
#include "gate/evidence.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"
#include "gate/usable.h"

/* From four intervals on a heart rate can be told. */
#define SS_ECG_GATE_FEWEST_BEATS 5
#define SS_ECG_GATE_FEWEST_INTERVALS 3
/*
 * How many of up to 15 features may stand out: to open, and to stay open. Fibrillation has odd intervals but heights that are all alike, which
 * noise has not.
 */
#define SS_ECG_GATE_MORE_WHEN_ALIKE 1
#define SS_ECG_GATE_FAULTS_TO_STAY 6
/* Every second beat early is a pattern of its own. */
#define SS_ECG_GATE_MOST_ODD_WHEN_EXCUSED 4
/*
 * An interval of twice the length is a missed beat, or a blocked one: taken for missed. When they recur evenly, at most so many beats apart,
 * in a clear ECG, it is the heart.
 */
#define SS_ECG_GATE_RECURRENT_BEATS 12
/* Beats over what is none, in eighths: of noise alone the detector makes beats of one and a half times the noise. */
#define SS_ECG_GATE_WEAK_TO_OPEN 16
#define SS_ECG_GATE_WEAK_TO_STAY 13

/*
 * Whether the ECG is steady enough for a reading, and why not. A value of fixed size: an assignment copies the whole state.
 * Input: beats, unusable stretches and the time, in order of time. Product: levels by 7, of 31 bits, in 64 bits. Accumulator: 64 bits. Worst
 * case: see evidence and gate_latch. Output: open or shut with a reason; a quality of 0 to 255.
 */
struct ss_ecg_gate {
    ss_gate_time_t time;
    ss_gate_latch_t latch;
    ss_usable_t usable;
    ss_evidence_t evidence;
    uint8_t strictness;
    uint8_t doubt;
    uint8_t since_double;
    uint8_t spacing;
    bool is_held;
    bool is_weak;
    bool is_clear;
    bool is_broken;
    int64_t trusted_from_ticks256; /* The beats that opened the gate begin here: a reading should use nothing older [1/256 tick]. */
};

/* Whether a reading may be given now. */
static inline bool ss_ecg_gate_is_open(const ss_ecg_gate_t *self);

/* Why the gate is shut; none while it is open, even while a single beat is held back. */
static inline ss_gate_reason_t ss_ecg_gate_reason(const ss_ecg_gate_t *self);

/* When the gate last opened or shut [1/256 tick]. */
static inline int64_t ss_ecg_gate_since_ticks256(const ss_ecg_gate_t *self);

/* Trust, 0 to 255; 0 while shut. */
static inline uint8_t ss_ecg_gate_quality(const ss_ecg_gate_t *self);

/*
 * Shuts, waiting, and forgets.
 * clock: The common clock.
 */
void ss_ecg_gate_start_1(ss_ecg_gate_t *self, ss_common_clock_t clock);

/*
 * Shuts, waiting, and forgets.
 * clock: The common clock.
 * tuning: How strict it is.
 */
void ss_ecg_gate_start_2(ss_ecg_gate_t *self, ss_common_clock_t clock, const ss_tuning_t *tuning);

/*
 * A stretch of unusable samples begins or goes on.
 * ticks256: Now [1/256 tick].
 * flags: Status bits (sample_flags); 0 when samples do not come.
 */
void ss_ecg_gate_unusable(ss_ecg_gate_t *self, int64_t ticks256, uint16_t flags);

/*
 * Usable samples come again.
 * ticks256: The first of them [1/256 tick].
 */
void ss_ecg_gate_usable(ss_ecg_gate_t *self, int64_t ticks256);

/*
 * A beat was found.
 * beat: The beat.
 * ticks256: Its R peak [1/256 tick].
 * signal_level: Typical height of beats, as the detector keeps it.
 * noise_level: Typical height of what is no beat, in the same format.
 */
void ss_ecg_gate_beat(ss_ecg_gate_t *self, const ss_beat_event_t *beat, int64_t ticks256, int32_t signal_level, int32_t noise_level);

/*
 * Time goes on: judges anew.
 * ticks256: Now [1/256 tick], never less than before.
 * Returns: Whether the gate opened or shut.
 */
bool ss_ecg_gate_advance(ss_ecg_gate_t *self, int64_t ticks256);

/* Eight intervals and eight heights may all stand out: sixteen, which is more than 255 bears. */
uint8_t ss_ecg_gate_trust(const ss_ecg_gate_t *self);

static inline bool ss_ecg_gate_is_open(const ss_ecg_gate_t *self)
{
    return self->latch.is_open && !self->is_held && !self->usable.is_bad;
}

static inline ss_gate_reason_t ss_ecg_gate_reason(const ss_ecg_gate_t *self)
{
    return self->latch.reason;
}

static inline int64_t ss_ecg_gate_since_ticks256(const ss_ecg_gate_t *self)
{
    return self->latch.since_ticks256;
}

static inline uint8_t ss_ecg_gate_quality(const ss_ecg_gate_t *self)
{
    return (uint8_t)(ss_ecg_gate_is_open(self) ? ss_ecg_gate_trust(self) : 0);
}

#endif
