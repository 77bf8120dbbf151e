/* Generated from SensorSim.Detection/Pipeline/MovementPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_MOVEMENT_PATH_H
#define SS_PIPELINE_MOVEMENT_PATH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "movement/cadence_tracker.h"
#include "movement/movement_level.h"
#include "movement/movement_reference.h"

/* From acceleration to the reference of the cancellers, the level of movement and the cadence. */
struct ss_movement_path {
    ss_movement_reference_t reference;
    ss_movement_level_t level;
    ss_cadence_tracker_t cadence;
    int32_t step;
    bool is_there; /* Whether the stream has what it takes: three axes of one rate. */
};

/* Level of movement [mg]. */
static inline int32_t ss_movement_path_level_mg(const ss_movement_path_t *self);

/* Whether that is movement. */
static inline bool ss_movement_path_is_moving(const ss_movement_path_t *self);

void ss_movement_path_start(ss_movement_path_t *self, const ss_library_setup_t *setup);

/* Takes what comes up to and with a tick. */
void ss_movement_path_take(ss_movement_path_t *self, ss_beside_t *beside, int64_t tick, ss_found_list_t *found);

static inline int32_t ss_movement_path_level_mg(const ss_movement_path_t *self)
{
    return self->level.level_mg;
}

static inline bool ss_movement_path_is_moving(const ss_movement_path_t *self)
{
    return self->level.is_moving;
}

#endif
