/* Generated from SensorSim.Detection/Pipeline/LibraryInput.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_LIBRARY_INPUT_H
#define SS_PIPELINE_LIBRARY_INPUT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Consecutive samples of one channel; none when there is nothing new. */
struct ss_channel_piece {
    ss_view_int32_t codes; /* Codes. */
    ss_view_uint16_t status; /* Status words. */
    int64_t first_index; /* Index of the first sample. */
};

/* New samples of all channels up to a common tick, each channel without a gap inside: a gap shows in the next first index. */
struct ss_library_input {
    ss_channel_piece_t ecg; /* ECG. */
    ss_channel_piece_t red; /* Red light. */
    ss_channel_piece_t infrared; /* Infrared light. */
    ss_channel_piece_t green; /* Green light. */
    ss_channel_piece_t dark; /* Light without LED. */
    ss_channel_piece_t accel_x; /* Acceleration, first axis. */
    ss_channel_piece_t accel_y; /* Acceleration, second axis. */
    ss_channel_piece_t accel_z; /* Acceleration, third axis. */
};

/* Consecutive samples of one channel; none when there is nothing new. */
ss_channel_piece_t ss_channel_piece_make(ss_view_int32_t codes, ss_view_uint16_t status, int64_t first_index);

/*
 * The samples from an index up to another, as far as they are here.
 * from: Index of the first sample wanted.
 * until: Index after the last.
 */
ss_channel_piece_t ss_channel_piece_between(ss_channel_piece_t self, int64_t from, int64_t until);

#endif
