/* Generated from SensorSim.Detection/Gate/Half8.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_HALF8_H
#define SS_GATE_HALF8_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Half words held. */
#define SS_GATE_HALF8_LENGTH 8

/* Eight half words, held in place as in a C struct. */
struct ss_gate_half8 {
    int16_t at[8];
};

#endif
