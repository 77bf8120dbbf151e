/* Generated from SensorSim.Detection/GateReason.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_COMMON_GATE_REASON_H
#define SS_COMMON_GATE_REASON_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Why a gate is shut. The number stands as the value of the mark. */
enum {
    SS_GATE_REASON_NONE = 0, /* It is not shut. */
    SS_GATE_REASON_WAITING = 1, /* Not enough has been seen yet. */
    SS_GATE_REASON_NO_CONTACT = 2, /* An electrode is off, or the optical sensor does not touch the skin. */
    SS_GATE_REASON_SATURATED = 3, /* Amplifier or converter are at the end of their range. */
    SS_GATE_REASON_NO_SAMPLES = 4, /* Samples do not come. */
    SS_GATE_REASON_MOVEMENT = 5, /* Movement hides the signal. */
    SS_GATE_REASON_AMBIENT = 6, /* Room light hides the signal. */
    SS_GATE_REASON_IRREGULAR = 7, /* Beats or pulses come and differ too irregularly to be told from noise. */
    SS_GATE_REASON_TOO_WEAK = 8 /* The signal is too weak for its noise. */
};

#endif
