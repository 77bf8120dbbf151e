/* Generated from SensorSim.Detection/Pipeline/Tuning.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_TUNING_H
#define SS_PIPELINE_TUNING_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Constants of the library that may be set before the start: for studies of what they do, and for a sensor of its own kind.
 * The reasons for the usual values stand in the pages of docs about the stages; every measured figure holds for them.
 */
struct ss_tuning {
    int16_t beat_refractory_ms; /* No two beats lie closer than this [ms], 100 to 400. */
    int16_t beat_t_wave_ms; /* Up to this long after a beat a candidate may be its T wave [ms], 200 to 600. */
    int16_t beat_threshold_percent; /* Threshold of beats, of the usual one [percent], 25 to 400. */
    int16_t pulse_refractory_ms; /* No two pulses lie closer than this [ms], 150 to 500. */
    int16_t pulse_threshold_percent; /* Thresholds of pulses, of the usual ones [percent], 25 to 400. */
    int16_t gate_shut_ms; /* A gate that shut stays shut for this long at least [ms], 500 to 15,000. */
    uint8_t ecg_faults_to_open; /* Features of the last beats that may stand out when the gate of the ECG opens, 0 to 12. */
    uint8_t light_faults_to_open; /* Features of the last pulses that may stand out when the gate of the light opens, 0 to 12. */
    /* After a signal that was not convincing for this many beats or pulses, as many must be before a gate opens, 0 to 8. */
    uint8_t doubt;
};

/* The usual values. */
static inline ss_tuning_t ss_tuning_usual(void);

static inline ss_tuning_t ss_tuning_usual(void)
{
    return (ss_tuning_t){ .beat_refractory_ms = 200, .beat_t_wave_ms = 360, .beat_threshold_percent = 100, .pulse_refractory_ms = 270,
        .pulse_threshold_percent = 100, .gate_shut_ms = 3000, .ecg_faults_to_open = 3, .light_faults_to_open = 3, .doubt = 5 };
}

#endif
