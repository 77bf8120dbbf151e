/* Generated from SensorSim.Detection/Gate/JointGate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/gate_reason.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "gate/ecg_gate.h"
#include "gate/evidence.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"
#include "gate/half8.h"
#include "gate/joint_gate.h"
#include "gate/pulse_gate.h"
#include "pipeline/tuning.h"

static ss_gate_reason_t ss_joint_gate_judge(ss_joint_gate_t *self, int64_t ticks256);
static void ss_joint_gate_add_outcome(ss_joint_gate_t *self, int32_t paired);
static void ss_joint_gate_compare(ss_joint_gate_t *self);
static bool ss_joint_gate_is_changing(const ss_joint_gate_t *self, int32_t bound_us);
static void ss_joint_gate_forget(ss_joint_gate_t *self);

void ss_joint_gate_start_1(ss_joint_gate_t *self, ss_common_clock_t clock)
{
    ss_tuning_t usual_value = ss_tuning_usual();
    ss_joint_gate_start_2(self, clock, &usual_value);
}

void ss_joint_gate_start_2(ss_joint_gate_t *self, ss_common_clock_t clock, const ss_tuning_t *tuning)
{
    *self = (ss_joint_gate_t){ 0 };
    ss_gate_time_start(&self->time, clock);
    ss_gate_latch_start(&self->latch, tuning->gate_shut_ms);
}

void ss_joint_gate_arrival(ss_joint_gate_t *self, int64_t ticks256, int32_t time_us)
{
    int32_t scaled = ss_shift_round(time_us, 4);
    self->arrivals.at[self->arrival_at] = (int16_t)((scaled > 32767) ? 32767 : ((scaled < 0) ? 0 : (int16_t)scaled));
    self->arrival_at = (uint8_t)((self->arrival_at + 1) & SS_JOINT_GATE_MASK);
    self->arrival_count = (uint8_t)(self->arrival_count + ((self->arrival_count < SS_GATE_HALF8_LENGTH) ? 1 : 0));
    self->last256 = ticks256;
    ss_joint_gate_add_outcome(self, 1);
    ss_joint_gate_compare(self);
}

void ss_joint_gate_unpaired(ss_joint_gate_t *self, int64_t ticks256)
{
    (void)ticks256;
    ss_joint_gate_add_outcome(self, 0);
}

bool ss_joint_gate_advance(ss_joint_gate_t *self, const ss_ecg_gate_t *ecg, const ss_pulse_gate_t *pulse, int64_t ticks256)
{
    self->held = (uint8_t)((self->held & SS_JOINT_GATE_HELD_AS_ODD) | ((ss_ecg_gate_is_open(ecg) && ss_pulse_gate_is_open(pulse)) ? 0
        : SS_JOINT_GATE_HELD_BY_GATES));
    ss_gate_reason_t reason = (ss_gate_reason_t)((ss_ecg_gate_reason(ecg) != SS_GATE_REASON_NONE) ? ss_ecg_gate_reason(ecg)
        : ss_pulse_gate_reason(pulse));
    if (reason == SS_GATE_REASON_NONE) {
        reason = ss_joint_gate_judge(self, ticks256);
    }
    else {
        ss_joint_gate_forget(self);
    }

    bool has_changed = ss_gate_latch_next(&self->latch, &self->time, ticks256, reason);
    if (has_changed && !self->latch.is_open) {
        ss_joint_gate_forget(self);
    }

    return has_changed;
}

static ss_gate_reason_t ss_joint_gate_judge(ss_joint_gate_t *self, int64_t ticks256)
{
    if (self->outcome_count < SS_JOINT_GATE_FEWEST_OUTCOMES) {
        return (ss_gate_reason_t)((self->latch.reason == SS_GATE_REASON_IRREGULAR) ? SS_GATE_REASON_IRREGULAR : SS_GATE_REASON_WAITING);
    }

    int32_t lost = self->outcome_count - ss_joint_gate_paired(self);
    int32_t lost_allowed = SS_GATE_HALF8_LENGTH - (self->latch.is_open ? SS_JOINT_GATE_PAIRED_TO_STAY : SS_JOINT_GATE_PAIRED_TO_OPEN);
    int32_t stray_allowed = self->latch.is_open ? SS_JOINT_GATE_STRAY_TO_STAY : SS_JOINT_GATE_STRAY_TO_OPEN;
    bool is_silent = ss_gate_time_units(&self->time, ticks256 - self->last256) > ss_gate_time_from_ms(&self->time,
        SS_JOINT_GATE_SILENCE_MS);

    /* Before there are eight, fewer may be lost. */
    bool is_off = (lost > (((self->outcome_count < SS_GATE_HALF8_LENGTH) && !self->latch.is_open) ? 0 : lost_allowed))
        || (self->stray > stray_allowed) || ss_joint_gate_is_changing(self, self->latch.is_open ? SS_JOINT_GATE_CHANGE_TO_STAY_US
        : SS_JOINT_GATE_CHANGE_TO_OPEN_US);
    return (ss_gate_reason_t)((is_off || is_silent) ? SS_GATE_REASON_IRREGULAR : SS_GATE_REASON_NONE);
}

static void ss_joint_gate_add_outcome(ss_joint_gate_t *self, int32_t paired)
{
    self->outcomes = (uint8_t)((ss_shift_left32(self->outcomes, 1) | paired) & 255);
    self->outcome_count = (uint8_t)(self->outcome_count + ((self->outcome_count < SS_GATE_HALF8_LENGTH) ? 1 : 0));
}

int32_t ss_joint_gate_paired(const ss_joint_gate_t *self)
{
    int32_t paired = 0;
    for (int32_t i = 0; i < self->outcome_count; i++) {
        paired += ss_shift_right32(self->outcomes, i) & 1;
    }

    return paired;
}

static void ss_joint_gate_compare(ss_joint_gate_t *self)
{
    int32_t median = ss_evidence_median_of(&self->arrivals, self->arrival_count);
    bool is_odd = ss_sat_abs32(self->arrivals.at[(self->arrival_at - 1) & SS_JOINT_GATE_MASK] - median) > 437;
    self->stray = 0;
    for (int32_t i = 0; i < self->arrival_count; i++) {
        self->stray = (uint8_t)(self->stray + ((ss_sat_abs32(self->arrivals.at[i] - median) > 1000) ? 1 : 0));
    }

    /* The ring's oldest and newest are no neighbours in time. */
    int32_t sum = 0;
    for (int32_t i = 2; i <= self->arrival_count; i++) {
        sum += ss_sat_abs32(self->arrivals.at[(self->arrival_at - i + 1) & SS_JOINT_GATE_MASK]
            - self->arrivals.at[(self->arrival_at - i) & SS_JOINT_GATE_MASK]);
    }

    self->change = ss_sat_narrow16(sum);
    self->held = (uint8_t)((self->held & SS_JOINT_GATE_HELD_BY_GATES) | ((is_odd
        || ss_joint_gate_is_changing(self, SS_JOINT_GATE_CHANGE_TO_GIVE_US)) ? SS_JOINT_GATE_HELD_AS_ODD : 0));
}

/* The mean of the changes in whole units of 16 µs is above the bound: their sum reaches the next unit times their number. */
static bool ss_joint_gate_is_changing(const ss_joint_gate_t *self, int32_t bound_us)
{
    return (self->arrival_count >= 2) && (self->change >= ((ss_shift_floor(bound_us, 4) + 1) * (self->arrival_count - 1)));
}

static void ss_joint_gate_forget(ss_joint_gate_t *self)
{
    self->outcome_count = 0;
    self->arrival_count = 0;
    self->arrival_at = 0;
    self->stray = 0;
    self->change = 0;
    self->held = (uint8_t)(self->held & SS_JOINT_GATE_HELD_BY_GATES);
}
