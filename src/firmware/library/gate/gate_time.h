/* Generated from SensorSim.Detection/Gate/GateTime.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_GATE_TIME_H
#define SS_GATE_GATE_TIME_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* 2^17 / 1000 is 131.07. */
#define SS_GATE_TIME_PER_MS 131

/*
 * Short spans for the gates: whole units of about a thousandth of a second, found by a shift.
 * Input: spans in 1/256 tick of the common clock, 63 bits. Product: milliseconds × units per second, 21 + 11 bits, in 64 bits; 131 / 2^17 in
 * place of a division by 1000. Accumulator: 64 bits. Worst case: spans of 2^31 units and more (12 days) clip; negative ones count as none.
 * Output: units of 1/1024 to 1/2047 s, floor.
 */
struct ss_gate_time {
    int32_t units_per_second;
    uint8_t shift;
};

/*
 * Chooses the unit.
 * clock: The common clock.
 */
void ss_gate_time_start(ss_gate_time_t *self, ss_common_clock_t clock);

/*
 * A span in units.
 * ticks256: The span [1/256 tick].
 */
int32_t ss_gate_time_units(const ss_gate_time_t *self, int64_t ticks256);

/*
 * Milliseconds in units, within 0.1 %.
 * ms: 0 to 60,000.
 */
int32_t ss_gate_time_from_ms(const ss_gate_time_t *self, int32_t ms);

/*
 * A span in 1/256 tick.
 * units: The span [units].
 */
int64_t ss_gate_time_ticks256(const ss_gate_time_t *self, int32_t units);

#endif
