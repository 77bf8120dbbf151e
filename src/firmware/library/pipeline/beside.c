/* Generated from SensorSim.Detection/Pipeline/Beside.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pipeline/beside.h"
#include "pipeline/library_input.h"

bool ss_beside_try_get(const ss_channel_piece_t *piece, int64_t index, int32_t *code)
{
    int64_t at = index - piece->first_index;
    bool is_there = (at >= INT64_C(0)) && (at < (int64_t)piece->codes.length);
    (*code) = is_there ? piece->codes.at[(int32_t)at] : 0;
    return is_there;
}
