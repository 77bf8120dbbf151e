/* Generated from SensorSim.Detection/SamplePosition.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/sample_position.h"

ss_sample_position_t ss_sample_position_make(int64_t sample, uint8_t fraction256)
{
    ss_sample_position_t made = { 0 };
    made.sample = sample;
    made.fraction256 = fraction256;
    return made;
}

ss_sample_position_t ss_sample_position_from256(int64_t position256)
{
    return ss_sample_position_make(ss_shift_right64(position256, 8), (uint8_t)(position256 & INT64_C(255)));
}
