/* Generated from SensorSim.Detection/Pulses/PulseRise.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_RISE_H
#define SS_PULSES_PULSE_RISE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_PULSE_RISE_MOST 4080

/*
 * Side stage, once per pulse: how long pulses take to rise, which decides on the length of the fit and on what is no pulse.
 * Input: heights of working samples, slopes of the cubic fit. Product: height of 17 bits × 2^12. Accumulator: 32 bits. Worst case: rises of
 * 255 working samples and more count as 255. Output: 1/16 working sample, 12 bits.
 */
struct ss_pulse_rise {
    int32_t usual16; /* A slow mean of the rise times [1/16 working sample]; 0 while there is none. */
};

/*
 * Rise time: the pulse's height over its steepest slope [1/16 working sample].
 * height: From minimum to peak.
 * slope: Steepest slope by the fit: slope × 2^14 after the shift.
 * scale_shift: By how much the fit makes its differences smaller [bits].
 */
int32_t ss_pulse_rise_of(int32_t height, int32_t slope, int32_t scale_shift);

/*
 * Breathing may rise as high as a weak pulse, and takes longer; what is suddenly large must take as long as pulses do.
 * rise16: Its rise time [1/16 working sample].
 * is_too_steep: Whether it is suddenly large.
 * is_pressing: Whether large ones have come for so long that any is believed.
 */
bool ss_pulse_rise_is_of_pulse(const ss_pulse_rise_t *self, int32_t rise16, bool is_too_steep, bool is_pressing);

/*
 * Takes the rise time of a pulse.
 * rise16: The rise time [1/16 working sample].
 */
void ss_pulse_rise_add(ss_pulse_rise_t *self, int32_t rise16);

#endif
