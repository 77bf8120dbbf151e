/* Generated from SensorSim.Detection/Pipeline/Gates.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/gate_reason.h"
#include "common/sample_position.h"
#include "gate/ecg_gate.h"
#include "gate/joint_gate.h"
#include "gate/pulse_gate.h"
#include "pipeline/answer.h"
#include "pipeline/channel_role.h"
#include "pipeline/channel_state.h"
#include "pipeline/gates.h"
#include "pipeline/library_setup.h"
#include "pipeline/tuning.h"

static bool ss_gates_is_news(ss_gate_reason_t reason, ss_gate_reason_t *told);
static void ss_gates_give(ss_answer_kind_t kind, ss_channel_role_t role, int64_t ticks256, int32_t step, uint8_t quality,
    ss_gate_reason_t reason, int64_t tick, ss_answer_list_t *answers);

void ss_gates_start(ss_gates_t *self, const ss_library_setup_t *setup, const ss_tuning_t *tuning)
{
    ss_channel_setup_t ecg = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ECG);
    self->light = ss_library_setup_light(setup);
    self->has_ecg = ss_channel_setup_is_there(&ecg);
    self->has_light = self->light != SS_CHANNEL_ROLE_NONE;
    self->ecg_step = ecg.ticks_per_sample;
    if (self->has_ecg) {
        ss_ecg_gate_start_2(&self->ecg, setup->clock, tuning);
    }

    if (self->has_light) {
        self->light_step = ss_library_setup_at(setup, self->light).ticks_per_sample;
        ss_pulse_gate_start_2(&self->pulse, setup->clock, tuning);
    }

    ss_joint_gate_start_2(&self->joint, setup->clock, tuning);
}

void ss_gates_look(ss_gates_t *self, ss_channel_state_t *ecg, ss_channel_state_t *light, int64_t tick)
{
    int64_t now256 = tick * INT64_C(256);
    if (self->has_ecg) {
        if ((ecg->flags != 0) || (ecg->count == 0)) {
            ss_ecg_gate_unusable(&self->ecg, now256, ecg->flags);
        }

        if (ecg->has_usable) {
            ss_ecg_gate_usable(&self->ecg, now256);
        }

        ss_channel_state_looked(ecg);
    }

    if (self->has_light) {
        if ((light->flags != 0) || (light->count == 0)) {
            ss_pulse_gate_unusable(&self->pulse, now256, light->flags);
        }

        if (light->has_usable) {
            ss_pulse_gate_usable(&self->pulse, now256);
        }

        ss_channel_state_looked(light);
    }
}

void ss_gates_tell_reasons(ss_gates_t *self, int64_t tick, ss_answer_list_t *answers)
{
    self->tenths = (uint8_t)((self->tenths == 9) ? 0 : (uint8_t)(self->tenths + 1));
    if (self->tenths != 0) {
        return;
    }

    if (self->has_ecg && ss_gates_is_news(ss_ecg_gate_reason(&self->ecg), &self->ecg_told)) {
        ss_gates_give(SS_ANSWER_KIND_GATE_SHUT, SS_CHANNEL_ROLE_ECG, tick * INT64_C(256), self->ecg_step, 0,
            ss_ecg_gate_reason(&self->ecg), tick, answers);
    }

    if (self->has_light && ss_gates_is_news(ss_pulse_gate_reason(&self->pulse), &self->pulse_told)) {
        ss_gates_give(SS_ANSWER_KIND_GATE_SHUT, self->light, tick * INT64_C(256), self->light_step, 0, ss_pulse_gate_reason(&self->pulse),
            tick, answers);
    }

    if (ss_gates_has_joint(self) && ss_gates_is_news(ss_joint_gate_reason(&self->joint), &self->joint_told)) {
        ss_gates_give(SS_ANSWER_KIND_JOINT_GATE_SHUT, self->light, tick * INT64_C(256), self->light_step, 0,
            ss_joint_gate_reason(&self->joint), tick, answers);
    }
}

static bool ss_gates_is_news(ss_gate_reason_t reason, ss_gate_reason_t *told)
{
    bool is_news = (reason != SS_GATE_REASON_NONE) && (reason != (*told));
    (*told) = reason;
    return is_news;
}

void ss_gates_advance(ss_gates_t *self, int64_t tick, ss_answer_list_t *answers)
{
    int64_t now256 = tick * INT64_C(256);
    if (self->has_ecg && ss_ecg_gate_advance(&self->ecg, now256)) {
        bool is_open = ss_ecg_gate_reason(&self->ecg) == SS_GATE_REASON_NONE;
        self->ecg_told = ss_ecg_gate_reason(&self->ecg);
        ss_gates_give((ss_answer_kind_t)(is_open ? SS_ANSWER_KIND_GATE_OPEN : SS_ANSWER_KIND_GATE_SHUT), SS_CHANNEL_ROLE_ECG,
            ss_ecg_gate_since_ticks256(&self->ecg), self->ecg_step, ss_ecg_gate_quality(&self->ecg), ss_ecg_gate_reason(&self->ecg), tick,
            answers);
    }

    if (self->has_light && ss_pulse_gate_advance(&self->pulse, now256)) {
        bool is_open = ss_pulse_gate_reason(&self->pulse) == SS_GATE_REASON_NONE;
        self->pulse_told = ss_pulse_gate_reason(&self->pulse);
        ss_gates_give((ss_answer_kind_t)(is_open ? SS_ANSWER_KIND_GATE_OPEN : SS_ANSWER_KIND_GATE_SHUT), self->light,
            ss_pulse_gate_since_ticks256(&self->pulse), self->light_step, ss_pulse_gate_quality(&self->pulse),
            ss_pulse_gate_reason(&self->pulse), tick, answers);
    }

    if (ss_gates_has_joint(self) && ss_joint_gate_advance(&self->joint, &self->ecg, &self->pulse, now256)) {
        bool is_open = ss_joint_gate_reason(&self->joint) == SS_GATE_REASON_NONE;
        self->joint_told = ss_joint_gate_reason(&self->joint);
        ss_gates_give((ss_answer_kind_t)(is_open ? SS_ANSWER_KIND_JOINT_GATE_OPEN : SS_ANSWER_KIND_JOINT_GATE_SHUT), self->light,
            ss_joint_gate_since_ticks256(&self->joint), self->light_step, ss_joint_gate_quality(&self->joint),
            ss_joint_gate_reason(&self->joint), tick, answers);
    }
}

static void ss_gates_give(ss_answer_kind_t kind, ss_channel_role_t role, int64_t ticks256, int32_t step, uint8_t quality,
    ss_gate_reason_t reason, int64_t tick, ss_answer_list_t *answers)
{
    ss_answer_t value = (ss_answer_t){ .kind = kind, .role = role, .paired_role = SS_CHANNEL_ROLE_NONE,
        .place = ss_sample_position_from256(ticks256 / (int64_t)step), .quality = quality, .value = reason, .emitted_tick = tick };
    ss_answer_list_add(answers, &value);
}
