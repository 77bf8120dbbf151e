/* Generated from SensorSim.Detection/Gate/PulseGate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/gate_reason.h"
#include "fixed_point/shift.h"
#include "gate/evidence.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"
#include "gate/half8.h"
#include "gate/pulse_gate.h"
#include "gate/usable.h"
#include "pipeline/tuning.h"
#include "pulses/pulse_event.h"

static inline int32_t ss_pulse_gate_faults_to_open(const ss_pulse_gate_t *self);
static inline int32_t ss_pulse_gate_most_doubt(const ss_pulse_gate_t *self);
static ss_gate_reason_t ss_pulse_gate_judge(ss_pulse_gate_t *self, int64_t ticks256);
static bool ss_pulse_gate_is_convincing(const ss_pulse_gate_t *self);
static void ss_pulse_gate_forget(ss_pulse_gate_t *self);

static inline int32_t ss_pulse_gate_faults_to_open(const ss_pulse_gate_t *self)
{
    return ss_shift_right32(self->strictness, 4);
}

/* Noise is convincing by chance for a pulse or two: after so many pulses that were not, as many have to be. */
static inline int32_t ss_pulse_gate_most_doubt(const ss_pulse_gate_t *self)
{
    return self->strictness & 15;
}

void ss_pulse_gate_start_1(ss_pulse_gate_t *self, ss_common_clock_t clock)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    ss_pulse_gate_start_2(self, clock, &usual_value);
}

void ss_pulse_gate_start_2(ss_pulse_gate_t *self, ss_common_clock_t clock, const ss_tuning_t *tuning)
{
    *self = (ss_pulse_gate_t){ 0 };
    ss_gate_time_start(&self->time, clock);
    ss_gate_latch_start(&self->latch, tuning->gate_shut_ms);
    self->strictness = (uint8_t)(ss_shift_left32(tuning->light_faults_to_open, 4) | tuning->doubt);
    self->since_longer = 255;
}

void ss_pulse_gate_unusable(ss_pulse_gate_t *self, int64_t ticks256, uint16_t flags)
{
    ss_usable_bad(&self->usable, ticks256, flags);
}

void ss_pulse_gate_usable(ss_pulse_gate_t *self, int64_t ticks256)
{
    if (ss_usable_good(&self->usable, &self->time, ticks256)) {
        ss_pulse_gate_forget(self);
        self->doubt = 0;
    }
}

void ss_pulse_gate_step(ss_pulse_gate_t *self, int64_t ticks256)
{
    (void)ticks256;
    ss_evidence_forget_heights(&self->evidence);
    self->amplitude = 0;
}

void ss_pulse_gate_pulse(ss_pulse_gate_t *self, const ss_pulse_event_t *pulse, int64_t ticks256, int32_t signal_level, int32_t noise_level)
{
    ss_evidence_add(&self->evidence, &self->time, ticks256, pulse->amplitude_codes, pulse->starts_run);
    self->is_weak = (INT64_C(4) * (int64_t)signal_level) < ((self->latch.is_open ? INT64_C(6) : INT64_C(7)) * (int64_t)noise_level);
    self->is_held = self->evidence.is_doubtful;
    self->amplitude = (self->amplitude == 0) ? pulse->amplitude_codes
        : (self->amplitude + ss_shift_round(pulse->amplitude_codes - self->amplitude, 2));
    int64_t least = (int64_t)pulse->level_codes * (int64_t)((self->is_faint || !self->latch.is_open) ? SS_PULSE_GATE_ENOUGH_PER100000
        : SS_PULSE_GATE_REFUSED_PER100000);
    self->is_faint = (pulse->level_codes > 0) && (((int64_t)self->amplitude * INT64_C(100000)) < least);
    self->since_longer = (uint8_t)(ss_evidence_is_longer(&self->evidence) ? 0
        : ((self->since_longer < 255) ? (uint8_t)(self->since_longer + 1) : self->since_longer));
    if (!self->latch.is_open && (ss_evidence_count(&self->evidence) == SS_GATE_HALF8_LENGTH)) {
        self->doubt = (uint8_t)(ss_pulse_gate_is_convincing(self) ? (uint8_t)((self->doubt > 0) ? (self->doubt - 1) : 0)
            : (uint8_t)((self->doubt < ss_pulse_gate_most_doubt(self)) ? (self->doubt + 1) : ss_pulse_gate_most_doubt(self)));
    }

    if (self->evidence.is_cut && !self->have_partners) {
        self->is_broken = true;
        ss_evidence_clear(&self->evidence);
        ss_evidence_add(&self->evidence, &self->time, ticks256, pulse->amplitude_codes, true);
    }
}

void ss_pulse_gate_partners(ss_pulse_gate_t *self, bool have_partners)
{
    self->have_partners = have_partners;
}

void ss_pulse_gate_movement(ss_pulse_gate_t *self, int32_t level_mg, bool is_moving)
{
    self->level_mg = (uint8_t)((level_mg < 0) ? 0 : ((level_mg > SS_PULSE_GATE_MOST_LEVEL_MG) ? SS_PULSE_GATE_MOST_LEVEL_MG : level_mg));
    self->is_moving = is_moving;
}

void ss_pulse_gate_ambient(ss_pulse_gate_t *self, int32_t ambient_codes, int32_t swing_codes)
{
    (void)ambient_codes;
    self->swing = swing_codes;
}

bool ss_pulse_gate_advance(ss_pulse_gate_t *self, int64_t ticks256)
{
    ss_gate_reason_t reason = ss_pulse_gate_judge(self, ticks256);
    bool has_changed = ss_gate_latch_next(&self->latch, &self->time, ticks256, reason);
    if (has_changed && self->latch.is_open) {
        self->doubt = 0;
        self->trusted_from_ticks256 = ss_evidence_back(&self->evidence, &self->time, SS_PULSE_GATE_FEWEST_PULSES - 1);
    }
    else if (has_changed) {
        ss_pulse_gate_forget(self);
    }

    bool is_recent = self->has_moved && (ss_gate_time_units(&self->time, ticks256 - self->moved256) < ss_gate_time_from_ms(&self->time,
        SS_PULSE_GATE_AFTER_MOVEMENT_MS));
    bool is_hidden = (reason == SS_GATE_REASON_NO_CONTACT) || (reason == SS_GATE_REASON_SATURATED) || (reason == SS_GATE_REASON_NO_SAMPLES)
        || (reason == SS_GATE_REASON_AMBIENT);
    bool is_steady = (self->since_longer >= SS_GATE_HALF8_LENGTH) && (self->evidence.interval_faults <= SS_PULSE_GATE_ODD_FOR_RATE);
    is_steady = is_steady | self->have_partners;
    self->is_open_for_rate = !self->usable.is_bad && (self->latch.is_open ? is_steady : (is_recent && !is_hidden && !self->is_faint));
    return has_changed;
}

static ss_gate_reason_t ss_pulse_gate_judge(ss_pulse_gate_t *self, int64_t ticks256)
{
    ss_gate_reason_t usable = ss_usable_judge(&self->usable, &self->time, ticks256);
    if (usable != SS_GATE_REASON_NONE) {
        return usable;
    }

    self->is_lit = (self->amplitude > 0) && ((int64_t)self->swing > ((int64_t)(self->is_lit ? SS_PULSE_GATE_SWING_TO_OPEN
        : SS_PULSE_GATE_SWING_TO_SHUT) * (int64_t)self->amplitude));
    if (self->is_moving) {
        self->moved256 = ticks256;
        self->has_moved = true;
        ss_pulse_gate_forget(self);
        return SS_GATE_REASON_MOVEMENT;
    }

    if (self->is_lit) {
        return SS_GATE_REASON_AMBIENT;
    }

    bool is_broken = self->is_broken;
    self->is_broken = false;
    if (is_broken && self->latch.is_open && !self->have_partners) {
        return SS_GATE_REASON_IRREGULAR;
    }

    int32_t count = ss_evidence_count(&self->evidence);
    if ((count > 0) && ss_evidence_is_silent(&self->evidence, &self->time, ticks256)) {
        ss_pulse_gate_forget(self);
        ss_gate_reason_t recent = ss_usable_recent(&self->usable, &self->time, ticks256);
        return (ss_gate_reason_t)((recent == SS_GATE_REASON_NONE) ? SS_GATE_REASON_TOO_WEAK : recent);
    }

    if (self->latch.is_open) {
        return (ss_gate_reason_t)((self->is_weak || self->is_faint) ? SS_GATE_REASON_TOO_WEAK
            : (((self->evidence.unexplained > SS_PULSE_GATE_FAULTS_TO_STAY) && !self->have_partners) ? SS_GATE_REASON_IRREGULAR
            : SS_GATE_REASON_NONE));
    }

    if ((count < SS_PULSE_GATE_FEWEST_PULSES) || (ss_evidence_interval_count(&self->evidence) < SS_PULSE_GATE_FEWEST_INTERVALS)) {
        return (ss_gate_reason_t)(((self->latch.reason == SS_GATE_REASON_TOO_WEAK) || (self->latch.reason == SS_GATE_REASON_IRREGULAR))
            ? self->latch.reason : SS_GATE_REASON_WAITING);
    }

    return (ss_gate_reason_t)((self->is_weak || self->is_faint) ? SS_GATE_REASON_TOO_WEAK
        : ((!self->have_partners && ((self->doubt > 0) || self->is_held || !ss_pulse_gate_is_convincing(self))) ? SS_GATE_REASON_IRREGULAR
        : SS_GATE_REASON_NONE));
}

/* Whether the last five to eight pulses are enough alike to open. */
static bool ss_pulse_gate_is_convincing(const ss_pulse_gate_t *self)
{
    return (self->evidence.faults <= (ss_pulse_gate_faults_to_open(self) - (SS_GATE_HALF8_LENGTH - ss_evidence_count(&self->evidence))))
        && !ss_evidence_has_cut(&self->evidence);
}

static void ss_pulse_gate_forget(ss_pulse_gate_t *self)
{
    ss_evidence_clear(&self->evidence);
    self->is_held = false;
}

uint8_t ss_pulse_gate_sat255(int32_t trust)
{
    return (uint8_t)((trust < 0) ? 0 : (uint8_t)trust);
}
