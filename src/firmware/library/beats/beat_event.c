/* Generated from SensorSim.Detection/Beats/BeatEvent.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_event.h"
#include "common/sample_position.h"

ss_beat_event_t ss_beat_event_make(ss_sample_position_t r_peak, int32_t amplitude_codes, uint8_t quality, bool starts_run,
    int64_t found_at, bool is_wide, bool is_paced)
{
    ss_beat_event_t made = { 0 };
    made.r_peak = r_peak;
    made.amplitude_codes = amplitude_codes;
    made.quality = quality;
    made.starts_run = starts_run;
    made.found_at = found_at;
    made.is_wide = is_wide;
    made.is_paced = is_paced;
    return made;
}
