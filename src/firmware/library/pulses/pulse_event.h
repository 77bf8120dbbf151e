/* Generated from SensorSim.Detection/Pulses/PulseEvent.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_EVENT_H
#define SS_PULSES_PULSE_EVENT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/sample_position.h"

/* One pulse found in the received light. Places are in samples of the optical channel. */
struct ss_pulse_event {
    ss_sample_position_t foot; /* Where the tangent at the steepest point meets the horizontal through the minimum before it. */
    ss_sample_position_t steepest; /* Where the upstroke is steepest. */
    ss_sample_position_t systolic_peak; /* Where the vessel is fullest: the received light is lowest. */
    int32_t amplitude_codes; /* Fall of the light from the minimum of the pulse to its peak [codes], above 0. */
    uint8_t quality; /* Trust, 0 to 255, by how steep the pulse is among its forerunners. */
    int64_t found_at; /* Index of the sample whose arrival led to the decision. */
    /* Where the second derivative is largest before the steepest point; default when it was not found. */
    ss_sample_position_t second_derivative_foot;
    int32_t level_codes; /* Received light at the minimum of the pulse, counted from the code of no light [codes]. */
    bool starts_run; /* Whether no pulse came before it without a gap between; then there is no interval to it. */
};

/* One pulse found in the received light. Places are in samples of the optical channel. */
ss_pulse_event_t ss_pulse_event_make(ss_sample_position_t foot, ss_sample_position_t steepest, ss_sample_position_t systolic_peak,
    int32_t amplitude_codes, uint8_t quality, int64_t found_at, ss_sample_position_t second_derivative_foot, int32_t level_codes,
    bool starts_run);

#endif
