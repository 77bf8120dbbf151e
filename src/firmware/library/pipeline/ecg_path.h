/* Generated from SensorSim.Detection/Pipeline/EcgPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_ECG_PATH_H
#define SS_PIPELINE_ECG_PATH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_detector.h"
#include "pipeline/channel_state.h"

/* From ECG samples to beats: leaves out what cannot be used, tells the detector of gaps. */
struct ss_ecg_path {
    ss_channel_state_t state;
    ss_beat_detector_t beats;
};

bool ss_ecg_path_start(ss_ecg_path_t *self, const ss_channel_setup_t *channel, const ss_tuning_t *tuning);

/* Takes the samples of a slice. */
void ss_ecg_path_take(ss_ecg_path_t *self, ss_channel_piece_t piece, ss_found_list_t *found);

/* No more samples follow: decides about what is held. */
void ss_ecg_path_flush(ss_ecg_path_t *self, int64_t tick, ss_found_list_t *found);

#endif
