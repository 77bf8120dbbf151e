/* Generated from SensorSim.Detection/Reading.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/reading.h"

ss_reading_t ss_reading_make(ss_reading_kind_t kind, int32_t value_milli, uint8_t quality, int64_t ticks256, int64_t window_ticks256)
{
    ss_reading_t made = { 0 };
    ss_reading_t *const self = &made;
    self->ticks256 = ticks256;
    self->window_ticks256 = window_ticks256;
    self->value_milli = value_milli;
    self->kind = kind;
    self->quality = quality;
    return made;
}
