/* Generated from SensorSim.Detection/Pipeline/LibraryInput.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pipeline/library_input.h"

ss_channel_piece_t ss_channel_piece_make(ss_view_int32_t codes, ss_view_uint16_t status, int64_t first_index)
{
    ss_channel_piece_t made = { 0 };
    made.codes = codes;
    made.status = status;
    made.first_index = first_index;
    return made;
}

ss_channel_piece_t ss_channel_piece_between(ss_channel_piece_t self, int64_t from, int64_t until)
{
    int64_t begin = (from > self.first_index) ? (from - self.first_index) : INT64_C(0);
    int64_t end = until - self.first_index;
    end = (end < (int64_t)self.codes.length) ? end : (int64_t)self.codes.length;
    if (begin >= end) {
        return ss_channel_piece_make((ss_view_int32_t){ 0 }, (ss_view_uint16_t){ 0 }, self.first_index);
    }

    int32_t count = (int32_t)(end - begin);
    return ss_channel_piece_make(ss_view_int32_slice(self.codes, (int32_t)begin, count),
        ss_view_uint16_slice(self.status, (int32_t)begin, count), self.first_index + begin);
}
