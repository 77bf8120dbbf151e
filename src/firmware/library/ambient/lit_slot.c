/* Generated from SensorSim.Detection/Ambient/LitSlot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "ambient/dark_subtraction.h"
#include "ambient/lit_slot.h"
#include "fixed_point/sat.h"

void ss_lit_slot_start(ss_lit_slot_t *self, int32_t light_rate_hz, int32_t dark_rate_hz, int32_t shift256, int32_t zero_code)
{
    *self = (ss_lit_slot_t){ 0 };
    self->zero = zero_code;
    self->place256 = (shift256 < 128) ? shift256 : (shift256 - 256);
    self->step256 = (256 * dark_rate_hz) / light_rate_hz;
}

void ss_lit_slot_dark(ss_lit_slot_t *self)
{
    self->now256 = self->place256;
}

int32_t ss_lit_slot_next(ss_lit_slot_t *self, int32_t light_code, const ss_dark_subtraction_t *room)
{
    /* Both at opposite ends of their ranges make twice the full scale, which no light is. */
    int32_t light = ss_sat_narrow(light_code - self->zero - ss_dark_subtraction_room_at(room, self->now256), SS_LIT_SLOT_RAIL);

    /* Never more than one interval beyond the latest: where dark samples are lost the line ends. */
    int32_t next256 = self->now256 + self->step256;
    self->now256 = (next256 < 256) ? next256 : 256;
    return light;
}
