/* Generated from SensorSim.Detection/Pipeline/Beside.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_BESIDE_H
#define SS_PIPELINE_BESIDE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pipeline/library_input.h"

/* The samples that go beside the light, and how far they have been taken. */
struct ss_beside {
    ss_channel_piece_t red;
    ss_channel_piece_t dark;
    ss_channel_piece_t x;
    ss_channel_piece_t y;
    ss_channel_piece_t z;
    int32_t dark_at;
    int32_t x_at;
};

/* The sample of another axis that belongs to one of the first. */
bool ss_beside_try_get(const ss_channel_piece_t *piece, int64_t index, int32_t *code);

#endif
