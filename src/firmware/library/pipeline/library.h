/* Generated from SensorSim.Detection/Pipeline/Library.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_LIBRARY_H
#define SS_PIPELINE_LIBRARY_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pipeline/ecg_path.h"
#include "pipeline/grid_cursor.h"
#include "pipeline/joint_path.h"
#include "pipeline/light_path.h"
#include "pipeline/pressure_path.h"
#include "pressure/pressure_refusal.h"

/*
 * The whole library: samples of all channels in, answers out. A value of fixed size: an assignment copies the whole state.
 * Time goes on in slices that end at every tenth of a second of the common clock, or where the caller's samples end. Inside of a slice each
 * channel is worked through by itself; what was found is then taken in order of tick, and the gates look at the end of each tenth. A slice
 * that the caller has cut in two gives the same answers, so no cut of the stream shows. Input: codes of up to 24 bits with status words.
 * Product: see the stages. Accumulator: ticks in 64 bits. Worst case: see the stages. Output: at most most answers in a tenth of a second.
 */
struct ss_library {
    ss_ecg_path_t ecg;
    ss_light_path_t light;
    ss_joint_path_t joint;
    ss_grid_cursor_t ecg_at;
    ss_grid_cursor_t light_at;
    ss_grid_cursor_t dark_at;
    ss_grid_cursor_t accel_at;
    ss_channel_role_t role;
    int64_t now;
    int64_t whole_tenth;
    int32_t rest_tenth;
    int32_t rest;
    int64_t slice_end_tick; /* Where the next slice must end at the latest: the end of the present tenth of a second. */
};

/* Tick up to which all samples have been taken. */
static inline int64_t ss_library_now_tick(const ss_library_t *self);

/* Why the last calibration or spot arrival time gave no pressure; none without a calibration. */
static inline ss_pressure_refusal_t ss_library_pressure_refusal(const ss_library_t *self);

/*
 * Prepares for a stream and drops all state.
 * setup: What the stream is like.
 * options: What it must be told of sensor and wearer.
 * Returns: The channel whose rate the library cannot work with, or none when all is well.
 */
ss_channel_role_t ss_library_start(ss_library_t *self, const ss_library_setup_t *setup, const ss_library_options_t *options);

/*
 * Takes a calibration of the pressure while running, in place of the one before; the trend begins anew.
 * calibration: The calibration; its times on the clock of start_s.
 * Returns: Whether it holds; a refused one leaves none, and pressure_refusal says why.
 */
bool ss_library_calibrate(ss_library_t *self, const ss_pressure_calibration_t *calibration);

/*
 * Takes the samples of all channels up to a tick, at most a tenth of a second after the last.
 * input: The samples from the last call's tick up to this one; earlier or later ones are not looked at.
 * until_tick: The tick.
 * answers: Gets what was found.
 */
void ss_library_take(ss_library_t *self, const ss_library_input_t *input, int64_t until_tick, ss_answer_list_t *answers);

/*
 * No more samples follow: decides about what is held.
 * answers: Gets what was found.
 */
void ss_library_flush(ss_library_t *self, ss_answer_list_t *answers);

static inline int64_t ss_library_now_tick(const ss_library_t *self)
{
    return self->now;
}

static inline ss_pressure_refusal_t ss_library_pressure_refusal(const ss_library_t *self)
{
    return ss_pressure_path_refusal(&self->joint.pressure);
}

#endif
