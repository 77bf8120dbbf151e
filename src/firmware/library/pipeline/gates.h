/* Generated from SensorSim.Detection/Pipeline/Gates.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_GATES_H
#define SS_PIPELINE_GATES_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "gate/ecg_gate.h"
#include "gate/joint_gate.h"
#include "gate/pulse_gate.h"

/* The three gates, and the answers that they give. */
struct ss_gates {
    ss_ecg_gate_t ecg;
    ss_pulse_gate_t pulse;
    ss_joint_gate_t joint;
    ss_channel_role_t light;
    ss_gate_reason_t ecg_told;
    ss_gate_reason_t pulse_told;
    ss_gate_reason_t joint_told;
    uint8_t tenths;
    bool has_ecg;
    bool has_light;
    int32_t light_step;
    int32_t ecg_step;
};

/* Whether both signals are there, so that there is a joint gate. */
static inline bool ss_gates_has_joint(const ss_gates_t *self);

void ss_gates_start(ss_gates_t *self, const ss_library_setup_t *setup, const ss_tuning_t *tuning);

/* Tells the gates what the channels were like since they last looked. */
void ss_gates_look(ss_gates_t *self, ss_channel_state_t *ecg, ss_channel_state_t *light, int64_t tick);

/* A tenth of a second is over: once a second a reason that has changed while a gate was shut is told, the first one too. */
void ss_gates_tell_reasons(ss_gates_t *self, int64_t tick, ss_answer_list_t *answers);

/* Time goes on to a tick. */
void ss_gates_advance(ss_gates_t *self, int64_t tick, ss_answer_list_t *answers);

static inline bool ss_gates_has_joint(const ss_gates_t *self)
{
    return self->has_ecg && self->has_light;
}

#endif
