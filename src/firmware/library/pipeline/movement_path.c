/* Generated from SensorSim.Detection/Pipeline/MovementPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "movement/cadence_tracker.h"
#include "movement/movement_level.h"
#include "movement/movement_reference.h"
#include "pipeline/beside.h"
#include "pipeline/channel_role.h"
#include "pipeline/found_list.h"
#include "pipeline/library_input.h"
#include "pipeline/library_setup.h"
#include "pipeline/movement_path.h"

void ss_movement_path_start(ss_movement_path_t *self, const ss_library_setup_t *setup)
{
    ss_channel_setup_t x = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ACCEL_X);
    ss_channel_setup_t y = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ACCEL_Y);
    ss_channel_setup_t z = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ACCEL_Z);
    int32_t codes_per_g = ss_shift_floor(x.codes_per_unit256, 8);
    self->step = x.ticks_per_sample;
    self->is_there = ss_channel_setup_is_there(&x) && (x.rate_hz == y.rate_hz) && (x.rate_hz == z.rate_hz)
        && ss_movement_reference_start(&self->reference, x.rate_hz, codes_per_g)
        && ss_movement_level_start(&self->level, x.rate_hz, codes_per_g)
        && ss_cadence_tracker_start(&self->cadence, x.rate_hz, codes_per_g);
}

void ss_movement_path_take(ss_movement_path_t *self, ss_beside_t *beside, int64_t tick, ss_found_list_t *found)
{
    while ((beside->x_at < beside->x.codes.length) && (((beside->x.first_index + (int64_t)beside->x_at) * (int64_t)self->step) <= tick)) {
        int64_t index = beside->x.first_index + (int64_t)beside->x_at;
        int32_t x_at_value = beside->x_at;
        beside->x_at++;
        int32_t x = beside->x.codes.at[x_at_value];
        int32_t y = 0;
        int32_t z = 0;
        if (!ss_beside_try_get(&beside->y, index, &y) || !ss_beside_try_get(&beside->z, index, &z)) {
            continue;
        }

        ss_movement_reference_next(&self->reference, x, y, z);
        ss_movement_level_next(&self->level, x, y, z);
        if (ss_cadence_tracker_next(&self->cadence, x, y, z)) {
            ss_found_t value = (ss_found_t){ .tick = index * (int64_t)self->step, .kind = SS_FOUND_KIND_CADENCE,
                .rate_milli = self->cadence.cadence_milli_per_min, .quality = self->cadence.quality, .is_trusted = self->level.is_moving };
            ss_found_list_add(found, &value);
        }
    }
}
