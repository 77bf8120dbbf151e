/* Generated from SensorSim.Detection/Pipeline/GridCursor.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pipeline/grid_cursor.h"
#include "pipeline/library_input.h"

ss_grid_cursor_t ss_grid_cursor_make(int32_t ticks_per_sample)
{
    ss_grid_cursor_t made = { 0 };
    made.step = ticks_per_sample;
    return made;
}

ss_channel_piece_t ss_grid_cursor_advance(ss_grid_cursor_t *self, ss_channel_piece_t piece, int64_t until_tick)
{
    int64_t from = self->index;
    int64_t until = from;
    int64_t tick = self->tick;
    for (int32_t step = self->step; (step > 0) && (tick < until_tick); tick += (int64_t)step) {
        until++;
    }

    self->tick = tick;
    self->index = until;
    return ss_channel_piece_between(piece, from, until);
}
