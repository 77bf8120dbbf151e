/* Generated from SensorSim.Detection/Gate/GateLatch.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/gate_reason.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"

static void ss_gate_latch_note(ss_gate_latch_t *self, const ss_gate_time_t *time, int32_t open_for, ss_gate_reason_t reason);

void ss_gate_latch_start(ss_gate_latch_t *self, int32_t shortest_shut_ms)
{
    *self = (ss_gate_latch_t){ 0 };
    self->shortest_shut_ms = (int16_t)shortest_shut_ms;
    self->reason = SS_GATE_REASON_WAITING;
}

bool ss_gate_latch_next(ss_gate_latch_t *self, const ss_gate_time_t *time, int64_t ticks256, ss_gate_reason_t reason)
{
    int32_t since = ss_gate_time_units(time, ticks256 - self->since_ticks256);
    if (self->is_open) {
        if (reason == SS_GATE_REASON_NONE) {
            return false;
        }

        ss_gate_latch_note(self, time, since, reason);
        self->is_open = false;
        self->reason = reason;
        self->since_ticks256 = ticks256;
        return true;
    }

    if (reason != SS_GATE_REASON_NONE) {
        self->reason = reason;
        return false;
    }

    /* The first opening waits for evidence only. */
    if (self->was_open && (since < ss_gate_time_from_ms(time, ss_shift_left32(self->shortest_shut_ms, self->doublings)))) {
        return false;
    }

    self->is_open = true;
    self->was_open = true;
    self->reason = SS_GATE_REASON_NONE;
    self->since_ticks256 = ticks256;
    return true;
}

/* Remembers whether the opening that ends now was premature. What the sensor itself reports is nobody's mistake. */
static void ss_gate_latch_note(ss_gate_latch_t *self, const ss_gate_time_t *time, int32_t open_for, ss_gate_reason_t reason)
{
    if (open_for >= ss_gate_time_from_ms(time, SS_GATE_LATCH_FORGIVEN_AFTER_MS)) {
        self->doublings = 0;
    }

    bool is_doubt = (reason == SS_GATE_REASON_IRREGULAR) || (reason == SS_GATE_REASON_TOO_WEAK) || (reason == SS_GATE_REASON_AMBIENT);
    if (is_doubt && (open_for < ss_gate_time_from_ms(time, SS_GATE_LATCH_SHORTEST_OPEN_MS))
        && (self->doublings < SS_GATE_LATCH_MOST_DOUBLINGS)) {
        self->doublings++;
    }
}
