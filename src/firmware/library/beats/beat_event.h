/* Generated from SensorSim.Detection/Beats/BeatEvent.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_EVENT_H
#define SS_BEATS_BEAT_EVENT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/sample_position.h"

/* One heart beat found in the ECG. */
struct ss_beat_event {
    ss_sample_position_t r_peak; /* Where the R peak lies, in samples of the ECG channel. */
    int32_t amplitude_codes; /* Deviation of the R peak from the level before the QRS complex, with its sign [codes]. */
    uint8_t quality; /* Trust, 0 to 255: 64 when found by looking back, else by the height above the threshold. */
    bool starts_run; /* Whether no beat came before it without a gap between; then there is no RR interval to it. */
    int64_t found_at; /* Index of the sample whose arrival led to the decision. */
    bool is_wide; /* Whether the complex is wider than a normally conducted one. */
    bool is_paced; /* Whether a pacing spike came right before it. */
};

/* One heart beat found in the ECG. */
ss_beat_event_t ss_beat_event_make(ss_sample_position_t r_peak, int32_t amplitude_codes, uint8_t quality, bool starts_run,
    int64_t found_at, bool is_wide, bool is_paced);

#endif
