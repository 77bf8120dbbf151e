/* Generated from SensorSim.Detection/Gate/EcgGate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_event.h"
#include "common/common_clock.h"
#include "common/gate_reason.h"
#include "fixed_point/sat.h"
#include "gate/ecg_gate.h"
#include "gate/evidence.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"
#include "gate/half8.h"
#include "gate/usable.h"
#include "pipeline/tuning.h"

static inline int32_t ss_ecg_gate_faults_to_open(const ss_ecg_gate_t *self);
static inline int32_t ss_ecg_gate_most_doubt(const ss_ecg_gate_t *self);
static ss_gate_reason_t ss_ecg_gate_judge(ss_ecg_gate_t *self, int64_t ticks256);
static bool ss_ecg_gate_is_recurrent(const ss_ecg_gate_t *self);
static bool ss_ecg_gate_is_convincing(const ss_ecg_gate_t *self);
static bool ss_ecg_gate_is_lost(const ss_ecg_gate_t *self);
static void ss_ecg_gate_forget(ss_ecg_gate_t *self);

static inline int32_t ss_ecg_gate_faults_to_open(const ss_ecg_gate_t *self)
{
    return ss_shift_right32(self->strictness, 4);
}

/* Noise is convincing by chance for a beat or two: after so many beats that were not, as many have to be. */
static inline int32_t ss_ecg_gate_most_doubt(const ss_ecg_gate_t *self)
{
    return self->strictness & 15;
}

void ss_ecg_gate_start_1(ss_ecg_gate_t *self, ss_common_clock_t clock)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    ss_ecg_gate_start_2(self, clock, &usual_value);
}

void ss_ecg_gate_start_2(ss_ecg_gate_t *self, ss_common_clock_t clock, const ss_tuning_t *tuning)
{
    *self = (ss_ecg_gate_t){ 0 };
    ss_gate_time_start(&self->time, clock);
    ss_gate_latch_start(&self->latch, tuning->gate_shut_ms);
    self->strictness = (uint8_t)(ss_shift_left32(tuning->ecg_faults_to_open, 4) | tuning->doubt);
    self->since_double = 255;
}

void ss_ecg_gate_unusable(ss_ecg_gate_t *self, int64_t ticks256, uint16_t flags)
{
    ss_usable_bad(&self->usable, ticks256, flags);
}

void ss_ecg_gate_usable(ss_ecg_gate_t *self, int64_t ticks256)
{
    if (ss_usable_good(&self->usable, &self->time, ticks256)) {
        ss_ecg_gate_forget(self);
        self->doubt = 0;
    }
}

void ss_ecg_gate_beat(ss_ecg_gate_t *self, const ss_beat_event_t *beat, int64_t ticks256, int32_t signal_level, int32_t noise_level)
{
    ss_evidence_add(&self->evidence, &self->time, ticks256, beat->amplitude_codes, beat->starts_run);
    int32_t eighths = self->latch.is_open ? SS_ECG_GATE_WEAK_TO_STAY : SS_ECG_GATE_WEAK_TO_OPEN;
    self->is_weak = (INT64_C(8) * (int64_t)signal_level) < ((int64_t)eighths * (int64_t)noise_level);
    self->is_clear = (int64_t)signal_level >= (INT64_C(3) * (int64_t)noise_level);
    self->is_held = self->evidence.is_doubtful;
    if (!self->latch.is_open && (ss_evidence_count(&self->evidence) == SS_GATE_HALF8_LENGTH)) {
        self->doubt = (uint8_t)(ss_ecg_gate_is_convincing(self) ? (uint8_t)((self->doubt > 0) ? (self->doubt - 1) : 0)
            : (uint8_t)((self->doubt < ss_ecg_gate_most_doubt(self)) ? (self->doubt + 1) : ss_ecg_gate_most_doubt(self)));
    }

    bool is_missing = ss_evidence_is_double(&self->evidence) && !ss_ecg_gate_is_recurrent(self);
    if (ss_evidence_is_double(&self->evidence)) {
        self->spacing = self->since_double;
        self->since_double = 0;
    }
    else if (self->since_double < 255) {
        self->since_double++;
    }

    if (self->evidence.is_broken || is_missing) {
        /* The intervals up to here are wrong; what comes is judged anew, this beat its first. */
        self->is_broken = true;
        ss_evidence_clear(&self->evidence);
        ss_evidence_add(&self->evidence, &self->time, ticks256, beat->amplitude_codes, true);
    }
}

bool ss_ecg_gate_advance(ss_ecg_gate_t *self, int64_t ticks256)
{
    ss_gate_reason_t reason = ss_ecg_gate_judge(self, ticks256);
    bool has_changed = ss_gate_latch_next(&self->latch, &self->time, ticks256, reason);
    if (has_changed && self->latch.is_open) {
        self->doubt = 0;
        self->trusted_from_ticks256 = ss_evidence_back(&self->evidence, &self->time, SS_ECG_GATE_FEWEST_BEATS - 1);
    }
    else if (has_changed) {
        ss_ecg_gate_forget(self);
    }

    return has_changed;
}

static ss_gate_reason_t ss_ecg_gate_judge(ss_ecg_gate_t *self, int64_t ticks256)
{
    ss_gate_reason_t usable = ss_usable_judge(&self->usable, &self->time, ticks256);
    if (usable != SS_GATE_REASON_NONE) {
        return usable;
    }

    bool is_broken = self->is_broken;
    self->is_broken = false;
    if (is_broken && self->latch.is_open) {
        return SS_GATE_REASON_IRREGULAR;
    }

    int32_t count = ss_evidence_count(&self->evidence);
    if ((count > 0) && ss_evidence_is_silent(&self->evidence, &self->time, ticks256)) {
        ss_ecg_gate_forget(self);
        ss_gate_reason_t recent = ss_usable_recent(&self->usable, &self->time, ticks256);
        return (ss_gate_reason_t)((recent == SS_GATE_REASON_NONE) ? SS_GATE_REASON_TOO_WEAK : recent);
    }

    if (self->latch.is_open) {
        return (ss_gate_reason_t)(self->is_weak ? SS_GATE_REASON_TOO_WEAK
            : (ss_ecg_gate_is_lost(self) ? SS_GATE_REASON_IRREGULAR : SS_GATE_REASON_NONE));
    }

    if ((count < SS_ECG_GATE_FEWEST_BEATS) || (ss_evidence_interval_count(&self->evidence) < SS_ECG_GATE_FEWEST_INTERVALS)) {
        /* What shut it still stands until there is something to say. */
        return (ss_gate_reason_t)(((self->latch.reason == SS_GATE_REASON_TOO_WEAK) || (self->latch.reason == SS_GATE_REASON_IRREGULAR))
            ? self->latch.reason : SS_GATE_REASON_WAITING);
    }

    return (ss_gate_reason_t)(self->is_weak ? SS_GATE_REASON_TOO_WEAK
        : (((self->doubt > 0) || self->is_held || !ss_ecg_gate_is_convincing(self)) ? SS_GATE_REASON_IRREGULAR : SS_GATE_REASON_NONE));
}

/* Whether an interval of twice the length comes as long after the last one as that came after its own last. */
static bool ss_ecg_gate_is_recurrent(const ss_ecg_gate_t *self)
{
    return self->is_clear && (self->evidence.height_faults == 0) && (self->since_double < SS_ECG_GATE_RECURRENT_BEATS)
        && (ss_sat_abs32(self->since_double - self->spacing) <= 1);
}

/* Whether the last five to eight beats are enough alike to open. */
static bool ss_ecg_gate_is_convincing(const ss_ecg_gate_t *self)
{
    int32_t allowed = (self->is_clear && (self->evidence.height_faults == 0))
        ? (ss_ecg_gate_faults_to_open(self) + SS_ECG_GATE_MORE_WHEN_ALIKE) : ss_ecg_gate_faults_to_open(self);
    int32_t faults = self->evidence.faults;

    /* An early beat with its pause is the heart's, when beats stand out clearly; one is charged for the looser look. */
    faults = (self->is_clear && (self->evidence.interval_faults <= SS_ECG_GATE_MOST_ODD_WHEN_EXCUSED)
        && ((self->evidence.unexplained + 1) < faults)) ? (self->evidence.unexplained + 1) : faults;
    return (faults <= (allowed - (SS_GATE_HALF8_LENGTH - ss_evidence_count(&self->evidence)))) && !ss_evidence_has_break(&self->evidence);
}

/* Whether the last beats differ too much to stay open. Intervals alone, of beats that are clear and alike, never do. */
static bool ss_ecg_gate_is_lost(const ss_ecg_gate_t *self)
{
    return (self->evidence.unexplained > SS_ECG_GATE_FAULTS_TO_STAY) && !(self->is_clear && (self->evidence.height_faults <= 1));
}

uint8_t ss_ecg_gate_trust(const ss_ecg_gate_t *self)
{
    int32_t trust = self->is_clear ? (255 - (16 * self->evidence.faults)) : (128 - (8 * self->evidence.faults));
    return (uint8_t)((trust < 0) ? 0 : trust);
}

static void ss_ecg_gate_forget(ss_ecg_gate_t *self)
{
    ss_evidence_clear(&self->evidence);
    self->is_held = false;
}
