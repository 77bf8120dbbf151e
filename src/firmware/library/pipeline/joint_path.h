/* Generated from SensorSim.Detection/Pipeline/JointPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_JOINT_PATH_H
#define SS_PIPELINE_JOINT_PATH_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/common_clock.h"
#include "common/reading.h"
#include "pipeline/gates.h"
#include "pipeline/pressure_path.h"
#include "readings/arrival.h"
#include "readings/arrival_spot.h"
#include "readings/fused_rate.h"
#include "readings/heart_rate.h"
#include "readings/perfusion_index.h"
#include "readings/respiration.h"
#include "readings/rhythm_check.h"
#include "readings/rr_variability.h"

#define SS_JOINT_PATH_TENTHS_OF_WINDOW 80
#define SS_JOINT_PATH_WINDOW_S 8
/*
 * A rate of the ECG or of the spectrum vouches for that of the pulses for five seconds, within a sixteenth; that of the ECG for 15 s within an
 * eighth, and for two minutes, in which the heart does not go half as fast or twice, within a quarter.
 */
#define SS_JOINT_PATH_CONFIRMS_FOR_S 5
#define SS_JOINT_PATH_KNOWS_FOR_S 15
#define SS_JOINT_PATH_REMEMBERS_FOR_S 120
#define SS_JOINT_PATH_NEAR_MILLI_BPM 4000
#define SS_JOINT_PATH_NEAR_SHIFT 4
#define SS_JOINT_PATH_PACE_FOR_S 3
/* Beats are clear from three times the noise on; their rate has this trust even when its intervals differ. */
#define SS_JOINT_PATH_CLEAR_FACTOR 3
#define SS_JOINT_PATH_SURE_BEATS 128
/* Waves of the vessels near six a minute look like breathing, with less agreement; movement does in every way. */
#define SS_JOINT_PATH_SURE_BREATHING 96
/* Trust of the spectrum: by itself, and when the ECG says the same. */
#define SS_JOINT_PATH_TRUST_ALONE 87
#define SS_JOINT_PATH_TRUST_WITH_ECG 40
/* A twelfth of the pulse from one to the next is held against its foot, half of it against heights, for eight pulses. */
#define SS_JOINT_PATH_SLOPE_FOR_FEET 12
#define SS_JOINT_PATH_SLOPE_FOR_HEIGHTS 2
#define SS_JOINT_PATH_EIGHT 8

/*
 * Which rate of the light is believed, and which of all is the fused one.
 * From beats and pulses, in order of time, to answers: marks always, readings only through their gate.
 */
struct ss_joint_path {
    ss_gates_t gates;
    ss_pressure_path_t pressure;
    ss_heart_rate_t ecg_rate;
    ss_heart_rate_t pulse_rate;
    ss_fused_rate_t fused;
    ss_rr_variability_t variability;
    ss_rhythm_check_t rhythm;
    ss_arrival_t arrival;
    ss_arrival_spot_t spot;
    ss_perfusion_index_t perfusion;
    ss_respiration_t respiration;
    ss_common_clock_t clock;
    ss_reading_t shown_ecg;
    ss_reading_t shown_pulse;
    ss_reading_t shown_spectrum;
    ss_reading_t spectrum;
    ss_channel_role_t light;
    int32_t ecg_step;
    int32_t light_step;
    int32_t accel_step;
    uint8_t tenths_open;
    int32_t level;
    bool is_sloping;
    uint8_t since_slope;
    uint8_t partners;
    bool has_arrival;
    bool is_moving;
    bool is_clear;
    bool is_rhythm_cut;
};

/* While the ECG gives a rate, its beats set the pace of the fused one: it does not go to and fro between the two. */
void ss_joint_path_give_fused_of_light(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers);

/* One signal alone needs no fusing. */
void ss_joint_path_give_fused(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers);

/* Clear beats that come faster than the pulses, gate or not: some have no pulse, and the rate of the light is not the heart's. */
bool ss_joint_path_is_outrun(const ss_joint_path_t *self, const ss_reading_t *rate, int64_t now);

bool ss_joint_path_is_confirmed(const ss_joint_path_t *self, const ss_reading_t *rate, int64_t now);

bool ss_joint_path_is_near_ecg(const ss_joint_path_t *self, const ss_reading_t *rate, int64_t now);

bool ss_joint_path_is_fresh(const ss_joint_path_t *self, const ss_reading_t *reading, int64_t now, int32_t for_s);

void ss_joint_path_start(ss_joint_path_t *self, const ss_library_setup_t *setup, const ss_library_options_t *options);

/* Takes what was found; in order of tick. */
void ss_joint_path_take(ss_joint_path_t *self, const ss_found_list_t *list, int32_t index, ss_light_path_t *path,
    ss_answer_list_t *answers);

/* A tenth of a second is over: the gates look. */
void ss_joint_path_end_tenth(ss_joint_path_t *self, ss_ecg_path_t *ecg, ss_light_path_t *path, int64_t tick, ss_answer_list_t *answers);

void ss_joint_path_give(const ss_reading_t *reading, ss_channel_role_t role, int32_t step, int64_t now, ss_answer_list_t *answers);

#endif
