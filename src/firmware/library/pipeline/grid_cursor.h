/* Generated from SensorSim.Detection/Pipeline/GridCursor.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_GRID_CURSOR_H
#define SS_PIPELINE_GRID_CURSOR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Where the samples of a channel lie on the common clock, from slice to slice, without a division. */
struct ss_grid_cursor {
    int32_t step;
    int64_t tick;
    int64_t index; /* Index of the first sample at or after the last tick advanced to; 0 where there is no such channel. */
};

/* Where the samples of a channel lie on the common clock, from slice to slice, without a division. */
ss_grid_cursor_t ss_grid_cursor_make(int32_t ticks_per_sample);

/*
 * The samples from there up to another tick, at most a tenth of a second later.
 * piece: Samples.
 * until_tick: The tick.
 */
ss_channel_piece_t ss_grid_cursor_advance(ss_grid_cursor_t *self, ss_channel_piece_t piece, int64_t until_tick);

#endif
