/* Generated from SensorSim.Detection/Pipeline/Library.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "pipeline/answer.h"
#include "pipeline/beside.h"
#include "pipeline/channel_role.h"
#include "pipeline/ecg_path.h"
#include "pipeline/found_list.h"
#include "pipeline/grid_cursor.h"
#include "pipeline/joint_path.h"
#include "pipeline/library.h"
#include "pipeline/library_input.h"
#include "pipeline/library_options.h"
#include "pipeline/library_setup.h"
#include "pipeline/light_path.h"
#include "pipeline/pressure_path.h"
#include "pressure/pressure_calibration.h"

static void ss_library_next_tenth(ss_library_t *self);

ss_channel_role_t ss_library_start(ss_library_t *self, const ss_library_setup_t *setup, const ss_library_options_t *options)
{
    *self = (ss_library_t){ 0 };
    self->role = ss_library_setup_light(setup);
    self->ecg_at = ss_grid_cursor_make(ss_library_setup_at(setup, SS_CHANNEL_ROLE_ECG).ticks_per_sample);
    self->light_at = ss_grid_cursor_make((self->role == SS_CHANNEL_ROLE_NONE) ? 0
        : ss_library_setup_at(setup, self->role).ticks_per_sample);
    self->dark_at = ss_grid_cursor_make(ss_library_setup_at(setup, SS_CHANNEL_ROLE_DARK).ticks_per_sample);
    self->accel_at = ss_grid_cursor_make(ss_library_setup_at(setup, SS_CHANNEL_ROLE_ACCEL_X).ticks_per_sample);
    self->whole_tenth = setup->clock.ticks_per_second / INT64_C(10);
    self->rest_tenth = (int32_t)(setup->clock.ticks_per_second - (INT64_C(10) * self->whole_tenth));
    ss_library_next_tenth(self);
    ss_channel_setup_t value = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ECG);
    if (!ss_ecg_path_start(&self->ecg, &value, &options->tuning)) {
        return SS_CHANNEL_ROLE_ECG;
    }

    if (!ss_light_path_start(&self->light, setup, &options->oxygen, &options->tuning)) {
        return ss_library_setup_light(setup);
    }

    ss_joint_path_start(&self->joint, setup, options);
    return SS_CHANNEL_ROLE_NONE;
}

bool ss_library_calibrate(ss_library_t *self, const ss_pressure_calibration_t *calibration)
{
    return ss_pressure_path_calibrate(&self->joint.pressure, calibration);
}

void ss_library_take(ss_library_t *self, const ss_library_input_t *input, int64_t until_tick, ss_answer_list_t *answers)
{
    ss_found_list_t found = (ss_found_list_t){ 0 };
    ss_ecg_path_take(&self->ecg, ss_grid_cursor_advance(&self->ecg_at, input->ecg, until_tick), &found);
    ss_channel_piece_t light = (self->role == SS_CHANNEL_ROLE_INFRARED) ? input->infrared
        : ((self->role == SS_CHANNEL_ROLE_RED) ? input->red : input->green);
    ss_channel_piece_t red_value = input->red;
    ss_channel_piece_t advance_value = ss_grid_cursor_advance(&self->dark_at, input->dark, until_tick);
    ss_channel_piece_t advance_value_2 = ss_grid_cursor_advance(&self->accel_at, input->accel_x, until_tick);
    ss_beside_t beside = (ss_beside_t){ .red = red_value, .dark = advance_value, .x = advance_value_2, .y = input->accel_y,
        .z = input->accel_z };
    ss_light_path_take(&self->light, ss_grid_cursor_advance(&self->light_at, light, until_tick), &beside, until_tick - INT64_C(1), &found);
    for (int32_t i = 0; i < found.count; i++) {
        ss_joint_path_take(&self->joint, &found, i, &self->light, answers);
    }

    bool is_end = until_tick == self->slice_end_tick;
    self->now = until_tick;
    if (is_end) {
        ss_library_next_tenth(self);
        ss_joint_path_end_tenth(&self->joint, &self->ecg, &self->light, until_tick, answers);
    }
}

void ss_library_flush(ss_library_t *self, ss_answer_list_t *answers)
{
    ss_found_list_t found = (ss_found_list_t){ 0 };
    ss_ecg_path_flush(&self->ecg, self->now - INT64_C(1), &found);
    for (int32_t i = 0; i < found.count; i++) {
        ss_joint_path_take(&self->joint, &found, i, &self->light, answers);
    }
}

/* Tick of the n-th tenth is n × ticks per second / 10, rounded down; kept with its rest. */
static void ss_library_next_tenth(ss_library_t *self)
{
    self->slice_end_tick += self->whole_tenth;
    self->rest += self->rest_tenth;
    if (self->rest >= 10) {
        self->rest -= 10;
        self->slice_end_tick++;
    }
}
