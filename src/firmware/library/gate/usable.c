/* Generated from SensorSim.Detection/Gate/Usable.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/gate_reason.h"
#include "common/sample_flags.h"
#include "gate/gate_time.h"
#include "gate/usable.h"

static bool ss_usable_is_too_long(const ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256);

void ss_usable_bad(ss_usable_t *self, int64_t ticks256, uint16_t flags)
{
    ss_gate_reason_t reason = (ss_gate_reason_t)(((flags & (SS_SAMPLE_FLAGS_LEAD_OFF | SS_SAMPLE_FLAGS_NO_CONTACT)) != 0)
        ? SS_GATE_REASON_NO_CONTACT : ((flags != 0) ? SS_GATE_REASON_SATURATED : SS_GATE_REASON_NO_SAMPLES));
    if (!self->is_bad) {
        /* A short stretch does not hide that an earlier long one is not yet three seconds past. */
        self->from256 = ticks256;
        self->is_bad = true;
        self->reason = reason;
    }
    else if (reason < self->reason) {
        /* What says more stays: contact before saturation before silence. */
        self->reason = reason;
    }
}

bool ss_usable_good(ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256)
{
    if (!self->is_bad) {
        return false;
    }

    bool is_long = ss_usable_is_too_long(self, time, ticks256);
    self->is_bad = false;
    self->is_long = self->is_long | is_long;
    self->from256 = ticks256;
    return is_long;
}

ss_gate_reason_t ss_usable_judge(ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256)
{
    if (self->is_bad) {
        return (ss_gate_reason_t)((self->is_long || ss_usable_is_too_long(self, time, ticks256)) ? self->reason : SS_GATE_REASON_NONE);
    }

    if (self->is_long && (ss_gate_time_units(time, ticks256 - self->from256) >= ss_gate_time_from_ms(time, SS_USABLE_SETTLE_MS))) {
        self->is_long = false;
    }

    return (ss_gate_reason_t)(self->is_long ? self->reason : SS_GATE_REASON_NONE);
}

ss_gate_reason_t ss_usable_recent(const ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256)
{
    return (ss_gate_reason_t)((self->is_bad || (ss_gate_time_units(time, ticks256 - self->from256) < ss_gate_time_from_ms(time,
        SS_USABLE_RECENT_MS))) ? self->reason : SS_GATE_REASON_NONE);
}

static bool ss_usable_is_too_long(const ss_usable_t *self, const ss_gate_time_t *time, int64_t ticks256)
{
    return ss_gate_time_units(time, ticks256 - self->from256) > ss_gate_time_from_ms(time, (self->reason == SS_GATE_REASON_NO_SAMPLES)
        ? SS_USABLE_LOST_MS : SS_USABLE_FLAGGED_MS);
}
