/* Generated from SensorSim.Detection/Pulses/PulseEvent.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/sample_position.h"
#include "pulses/pulse_event.h"

ss_pulse_event_t ss_pulse_event_make(ss_sample_position_t foot, ss_sample_position_t steepest, ss_sample_position_t systolic_peak,
    int32_t amplitude_codes, uint8_t quality, int64_t found_at, ss_sample_position_t second_derivative_foot, int32_t level_codes,
    bool starts_run)
{
    ss_pulse_event_t made = { 0 };
    made.foot = foot;
    made.steepest = steepest;
    made.systolic_peak = systolic_peak;
    made.amplitude_codes = amplitude_codes;
    made.quality = quality;
    made.found_at = found_at;
    made.second_derivative_foot = second_derivative_foot;
    made.level_codes = level_codes;
    made.starts_run = starts_run;
    return made;
}
