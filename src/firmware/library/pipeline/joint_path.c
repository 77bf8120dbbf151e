/* Generated from SensorSim.Detection/Pipeline/JointPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_event.h"
#include "common/common_clock.h"
#include "common/gate_reason.h"
#include "common/reading.h"
#include "common/sample_position.h"
#include "fixed_point/sat.h"
#include "gate/ecg_gate.h"
#include "gate/joint_gate.h"
#include "gate/pulse_gate.h"
#include "pipeline/answer.h"
#include "pipeline/channel_role.h"
#include "pipeline/ecg_path.h"
#include "pipeline/found_list.h"
#include "pipeline/gates.h"
#include "pipeline/joint_path.h"
#include "pipeline/library_options.h"
#include "pipeline/library_setup.h"
#include "pipeline/light_path.h"
#include "pipeline/movement_path.h"
#include "pipeline/pressure_path.h"
#include "pulses/pulse_event.h"
#include "readings/arrival.h"
#include "readings/arrival_spot.h"
#include "readings/fused_rate.h"
#include "readings/heart_rate.h"
#include "readings/oxygen.h"
#include "readings/perfusion_index.h"
#include "readings/respiration.h"
#include "readings/rhythm_check.h"
#include "readings/rr_variability.h"

static inline bool ss_joint_path_has_ecg(const ss_joint_path_t *self);
static inline bool ss_joint_path_is_breathing_sure(const ss_joint_path_t *self);
static inline bool ss_joint_path_has_light(const ss_joint_path_t *self);
static ss_answer_t ss_joint_path_at(ss_answer_kind_t kind, ss_channel_role_t role, ss_sample_position_t place, uint8_t quality,
    int64_t emitted_tick);
static void ss_joint_path_advance(ss_joint_path_t *self, int64_t tick, ss_answer_list_t *answers);
static void ss_joint_path_take_beat(ss_joint_path_t *self, const ss_beat_event_t *beat, const ss_found_t *found, int64_t now,
    ss_answer_list_t *answers);
static void ss_joint_path_add_rhythm(ss_joint_path_t *self, int64_t place256, bool starts_run, bool is_normal, int64_t now,
    ss_answer_list_t *answers);
static void ss_joint_path_take_pulse(ss_joint_path_t *self, const ss_pulse_event_t *pulse, const ss_found_t *found, ss_light_path_t *path,
    int64_t now, ss_answer_list_t *answers);
static void ss_joint_path_take_spectrum(ss_joint_path_t *self, const ss_found_t *found, int64_t now, ss_answer_list_t *answers);
static void ss_joint_path_note_level(ss_joint_path_t *self, const ss_pulse_event_t *pulse);
static void ss_joint_path_take_cadence(const ss_joint_path_t *self, const ss_found_t *found, int64_t now, ss_answer_list_t *answers);
static void ss_joint_path_note_arrival(ss_joint_path_t *self, bool is_pair);
static void ss_joint_path_give_arrival(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers);
static void ss_joint_path_give_pressure(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers);
static void ss_joint_path_give_rhythm(const ss_joint_path_t *self, int64_t place256, uint8_t quality, int64_t now,
    ss_answer_list_t *answers);
static bool ss_joint_path_is_trusted(const ss_reading_t *reading, int64_t from256);
static ss_reading_t ss_joint_path_least(const ss_reading_t *reading, uint8_t quality);

static inline bool ss_joint_path_has_ecg(const ss_joint_path_t *self)
{
    return self->ecg_step > 0;
}

static inline bool ss_joint_path_is_breathing_sure(const ss_joint_path_t *self)
{
    return !self->is_moving && (ss_respiration_latest(&self->respiration).quality >= SS_JOINT_PATH_SURE_BREATHING);
}

static inline bool ss_joint_path_has_light(const ss_joint_path_t *self)
{
    return self->light_step > 0;
}

void ss_joint_path_start(ss_joint_path_t *self, const ss_library_setup_t *setup, const ss_library_options_t *options)
{
    self->light = ss_library_setup_light(setup);
    ss_channel_setup_t ecg = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ECG);
    ss_channel_setup_t light = (self->light == SS_CHANNEL_ROLE_NONE) ? (ss_channel_setup_t){ 0 } : ss_library_setup_at(setup, self->light);
    self->ecg_step = ecg.ticks_per_sample;
    self->light_step = light.ticks_per_sample;
    self->accel_step = ss_library_setup_at(setup, SS_CHANNEL_ROLE_ACCEL_X).ticks_per_sample;
    self->clock = setup->clock;
    ss_gates_start(&self->gates, setup, &options->tuning);
    ss_heart_rate_start(&self->ecg_rate, self->clock, SS_READING_KIND_HEART_RATE_ECG);
    ss_heart_rate_start(&self->pulse_rate, self->clock, SS_READING_KIND_HEART_RATE_PULSE);
    ss_fused_rate_start(&self->fused, self->clock);
    ss_rr_variability_start(&self->variability, self->clock);
    ss_rhythm_check_start(&self->rhythm, self->clock);
    ss_arrival_spot_start(&self->spot, self->clock);
    ss_pressure_path_start(&self->pressure, options);
    ss_perfusion_index_start(&self->perfusion, self->clock);
    ss_respiration_start(&self->respiration, self->clock);
    ss_arrival_start(&self->arrival, self->clock.ticks_per_second, (int64_t)self->ecg_step, (int64_t)self->light_step,
        ss_gates_has_joint(&self->gates) ? (light.delay256 - ecg.delay256) : INT64_C(0));
}

void ss_joint_path_take(ss_joint_path_t *self, const ss_found_list_t *list, int32_t index, ss_light_path_t *path, ss_answer_list_t *answers)
{
    const ss_found_t *found = ss_found_list_at(list, index);
    int64_t now = found->tick + INT64_C(1);
    switch (found->kind) {
        case SS_FOUND_KIND_BEAT:
            ss_joint_path_take_beat(self, ss_found_list_beat(list, found), found, now, answers);
            break;
        case SS_FOUND_KIND_PULSE:
            ss_joint_path_take_pulse(self, ss_found_list_pulse(list, found), found, path, now, answers);
            break;
        case SS_FOUND_KIND_STEP:
            ss_pulse_gate_step(&self->gates.pulse, found->tick * INT64_C(256));
            ss_respiration_step(&self->respiration);
            break;
        case SS_FOUND_KIND_SPECTRUM:
            ss_joint_path_take_spectrum(self, found, now, answers);
            break;
        default:
            ss_joint_path_take_cadence(self, found, now, answers);
            break;
    }
}

void ss_joint_path_end_tenth(ss_joint_path_t *self, ss_ecg_path_t *ecg, ss_light_path_t *path, int64_t tick, ss_answer_list_t *answers)
{
    ss_gates_look(&self->gates, &ecg->state, &path->state, tick);
    ss_pulse_gate_movement(&self->gates.pulse, ss_movement_path_level_mg(&path->movement), ss_movement_path_is_moving(&path->movement));
    ss_pulse_gate_ambient(&self->gates.pulse, ss_light_path_ambient_codes(path), ss_light_path_swing_codes(path));
    ss_joint_path_advance(self, tick, answers);
    ss_gates_tell_reasons(&self->gates, tick, answers);
    self->is_moving = ss_movement_path_is_moving(&path->movement);

    /* The rate of the spectrum is given only while the pulses may not be counted, so what shuts their gate begins with a whole window. */
    self->tenths_open = (uint8_t)(!ss_pulse_gate_is_open(&self->gates.pulse) ? 0
        : ((self->tenths_open < SS_JOINT_PATH_TENTHS_OF_WINDOW) ? (uint8_t)(self->tenths_open + 1) : self->tenths_open));
    ss_light_path_set_is_spectrum_resting(path, self->tenths_open == SS_JOINT_PATH_TENTHS_OF_WINDOW);
}

static ss_answer_t ss_joint_path_at(ss_answer_kind_t kind, ss_channel_role_t role, ss_sample_position_t place, uint8_t quality,
    int64_t emitted_tick)
{
    return (ss_answer_t){ .kind = kind, .role = role, .paired_role = SS_CHANNEL_ROLE_NONE, .place = place, .quality = quality,
        .emitted_tick = emitted_tick };
}

static void ss_joint_path_advance(ss_joint_path_t *self, int64_t tick, ss_answer_list_t *answers)
{
    ss_gates_advance(&self->gates, tick, answers);

    /* A rhythm that is too irregular to read is no reason to forget that it was irregular. */
    ss_gate_reason_t reason_value = ss_ecg_gate_reason(&self->gates.ecg);
    bool is_lost = !((reason_value == SS_GATE_REASON_NONE) || (reason_value == SS_GATE_REASON_IRREGULAR));
    if (is_lost && ss_rhythm_check_shut(&self->rhythm)) {
        ss_joint_path_give_rhythm(self, tick * INT64_C(256), 0, tick, answers);
    }
}

static void ss_joint_path_take_beat(ss_joint_path_t *self, const ss_beat_event_t *beat, const ss_found_t *found, int64_t now,
    ss_answer_list_t *answers)
{
    int64_t place256 = ss_sample_position_in256(beat->r_peak) * (int64_t)self->ecg_step;
    bool is_normal = !beat->is_wide && !beat->is_paced;
    ss_ecg_gate_beat(&self->gates.ecg, beat, place256, found->signal_level, found->noise_level);
    ss_answer_t changed = ss_joint_path_at(SS_ANSWER_KIND_R_PEAK, SS_CHANNEL_ROLE_ECG, beat->r_peak, beat->quality, now);
    changed.value = beat->amplitude_codes;
    ss_answer_list_add(answers, &changed);
    if (ss_joint_path_has_light(self)) {
        ss_joint_path_note_arrival(self, ss_arrival_add_r_peak(&self->arrival, beat->r_peak, beat->quality));
    }

    bool is_rate = ss_heart_rate_add(&self->ecg_rate, place256, beat->starts_run, beat->quality);
    bool is_variability = ss_rr_variability_add_3(&self->variability, place256, beat->starts_run, is_normal);
    bool is_breathing = ss_respiration_add_beat(&self->respiration, place256, beat->starts_run, beat->amplitude_codes);
    ss_joint_path_advance(self, now, answers);
    bool is_open = ss_ecg_gate_is_open(&self->gates.ecg);
    bool is_so = is_rate && is_open;
    if (is_so) {
        ss_reading_t latest_value = ss_heart_rate_latest(&self->ecg_rate);
        is_so = ss_joint_path_is_trusted(&latest_value, self->gates.ecg.trusted_from_ticks256);
    }
    if (is_so) {
        ss_reading_t latest_value_2 = ss_heart_rate_latest(&self->ecg_rate);
        self->shown_ecg = ss_joint_path_least(&latest_value_2, ss_ecg_gate_quality(&self->gates.ecg));
        ss_joint_path_give(&self->shown_ecg, SS_CHANNEL_ROLE_ECG, self->ecg_step, now, answers);
        ss_joint_path_give_fused(self, now, answers);
    }

    if (is_variability && is_open) {
        ss_reading_t mean_value = ss_rr_variability_mean(&self->variability);
        ss_joint_path_give(&mean_value, SS_CHANNEL_ROLE_ECG, self->ecg_step, now, answers);
        ss_reading_t sdnn_value = ss_rr_variability_sdnn(&self->variability);
        ss_joint_path_give(&sdnn_value, SS_CHANNEL_ROLE_ECG, self->ecg_step, now, answers);
        ss_reading_t rmssd_value = ss_rr_variability_rmssd(&self->variability);
        ss_joint_path_give(&rmssd_value, SS_CHANNEL_ROLE_ECG, self->ecg_step, now, answers);
    }

    self->is_clear = (int64_t)found->signal_level > ((int64_t)SS_JOINT_PATH_CLEAR_FACTOR * (int64_t)found->noise_level);
    ss_joint_path_add_rhythm(self, place256, beat->starts_run || self->is_rhythm_cut, is_normal, now, answers);
    if (is_breathing && is_open && ss_joint_path_is_breathing_sure(self)) {
        ss_reading_t latest_value_3 = ss_respiration_latest(&self->respiration);
        ss_joint_path_give(&latest_value_3, SS_CHANNEL_ROLE_ECG, self->ecg_step, now, answers);
    }

    ss_joint_path_give_arrival(self, now, answers);
}

/* Beats that are held back singly belong to the rhythm; those behind a shut gate do not, nor does the interval across them. */
static void ss_joint_path_add_rhythm(ss_joint_path_t *self, int64_t place256, bool starts_run, bool is_normal, int64_t now,
    ss_answer_list_t *answers)
{
    self->is_rhythm_cut = ss_ecg_gate_reason(&self->gates.ecg) != SS_GATE_REASON_NONE;
    if (!self->is_rhythm_cut && ss_rhythm_check_add(&self->rhythm, place256, starts_run, is_normal)) {
        ss_joint_path_give_rhythm(self, place256, 255, now, answers);
    }
}

static void ss_joint_path_take_pulse(ss_joint_path_t *self, const ss_pulse_event_t *pulse, const ss_found_t *found, ss_light_path_t *path,
    int64_t now, ss_answer_list_t *answers)
{
    int64_t place256 = ss_sample_position_in256(pulse->foot) * (int64_t)self->light_step;
    ss_pulse_gate_pulse(&self->gates.pulse, pulse, place256, found->signal_level, found->noise_level);
    ss_answer_t at_value = ss_joint_path_at(SS_ANSWER_KIND_FOOT_TANGENT, self->light, pulse->foot, pulse->quality, now);
    ss_answer_list_add(answers, &at_value);
    if (ss_sample_position_in256(pulse->second_derivative_foot) != INT64_C(0)) {
        ss_answer_t at_value_2 = ss_joint_path_at(SS_ANSWER_KIND_FOOT_SECOND_DERIVATIVE, self->light, pulse->second_derivative_foot,
            pulse->quality, now);
        ss_answer_list_add(answers, &at_value_2);
    }

    ss_answer_t at_value_3 = ss_joint_path_at(SS_ANSWER_KIND_STEEPEST_POINT, self->light, pulse->steepest, pulse->quality, now);
    ss_answer_list_add(answers, &at_value_3);
    ss_answer_t at_value_4 = ss_joint_path_at(SS_ANSWER_KIND_SYSTOLIC_PEAK, self->light, pulse->systolic_peak, pulse->quality, now);
    ss_answer_list_add(answers, &at_value_4);
    if (ss_joint_path_has_ecg(self)) {
        ss_joint_path_note_arrival(self, ss_arrival_add_foot(&self->arrival, pulse->foot, pulse->quality));
    }

    ss_joint_path_note_level(self, pulse);
    bool is_rate = ss_heart_rate_add(&self->pulse_rate, place256, pulse->starts_run, pulse->quality);
    bool is_perfusion = ss_perfusion_index_add(&self->perfusion, pulse, place256);
    bool is_breathing = ss_respiration_add_pulse(&self->respiration, place256, pulse->starts_run, pulse->amplitude_codes,
        pulse->level_codes);
    ss_joint_path_advance(self, now, answers);
    bool is_open = ss_pulse_gate_is_open(&self->gates.pulse);
    int64_t from256 = self->gates.pulse.trusted_from_ticks256;
    bool is_so = is_rate && is_open && self->gates.pulse.is_open_for_rate;
    if (is_so) {
        ss_reading_t latest_value = ss_heart_rate_latest(&self->pulse_rate);
        is_so = ss_joint_path_is_trusted(&latest_value, from256);
    }
    bool is_so_2 = is_so;
    if (is_so_2) {
        ss_reading_t latest_value_2 = ss_heart_rate_latest(&self->pulse_rate);
        is_so_2 = ss_joint_path_is_confirmed(self, &latest_value_2, now);
    }
    if (is_so_2) {
        ss_reading_t latest_value_3 = ss_heart_rate_latest(&self->pulse_rate);
        self->shown_pulse = ss_joint_path_least(&latest_value_3, ss_pulse_gate_quality(&self->gates.pulse));
        ss_joint_path_give(&self->shown_pulse, self->light, self->light_step, now, answers);
        ss_joint_path_give_fused_of_light(self, now, answers);
    }

    is_open = is_open & (self->perfusion.is_steady && (self->since_slope >= SS_JOINT_PATH_EIGHT) && self->gates.pulse.is_open_for_rate);
    bool is_so_3 = is_perfusion && is_open;
    if (is_so_3) {
        ss_reading_t latest_value_4 = ss_perfusion_index_latest(&self->perfusion);
        is_so_3 = ss_joint_path_is_trusted(&latest_value_4, from256);
    }
    if (is_so_3) {
        ss_reading_t latest_value_5 = ss_perfusion_index_latest(&self->perfusion);
        ss_joint_path_give(&latest_value_5, self->light, self->light_step, now, answers);
    }

    bool is_so_4 = found->is_oxygen && is_open;
    if (is_so_4) {
        ss_reading_t latest_value_6 = ss_oxygen_latest(&path->oxygen);
        is_so_4 = ss_joint_path_is_trusted(&latest_value_6, from256);
    }
    if (is_so_4) {
        ss_reading_t latest_value_7 = ss_oxygen_latest(&path->oxygen);
        ss_joint_path_give(&latest_value_7, self->light, self->light_step, now, answers);
    }

    if (is_breathing && ss_pulse_gate_is_open(&self->gates.pulse) && ss_joint_path_is_breathing_sure(self)) {
        ss_reading_t latest_value_8 = ss_respiration_latest(&self->respiration);
        ss_joint_path_give(&latest_value_8, self->light, self->light_step, now, answers);
    }

    ss_joint_path_give_arrival(self, now, answers);
}

static void ss_joint_path_take_spectrum(ss_joint_path_t *self, const ss_found_t *found, int64_t now, ss_answer_list_t *answers)
{
    self->spectrum = ss_reading_make(SS_READING_KIND_HEART_RATE_PULSE, found->rate_milli, found->quality, found->tick * INT64_C(256),
        self->clock.ticks_per_second * INT64_C(256) * (int64_t)SS_JOINT_PATH_WINDOW_S);

    /* While the pulses themselves may be counted, they are. */
    if (!self->gates.pulse.is_open_for_rate || ss_pulse_gate_is_open(&self->gates.pulse)) {
        return;
    }

    bool is_known = ss_joint_path_is_fresh(self, &self->shown_ecg, now, SS_JOINT_PATH_CONFIRMS_FOR_S);
    bool is_trusted = is_known ? (found->quality >= SS_JOINT_PATH_TRUST_WITH_ECG) : found->is_trusted;
    if (!is_trusted || ss_joint_path_is_outrun(self, &self->spectrum, now)
        || (ss_joint_path_is_fresh(self, &self->shown_ecg, now, SS_JOINT_PATH_REMEMBERS_FOR_S)
        && !ss_joint_path_is_near_ecg(self, &self->spectrum, now))) {
        return;
    }

    self->shown_spectrum = self->spectrum;
    ss_joint_path_give(&self->shown_spectrum, self->light, self->light_step, now, answers);
    ss_joint_path_give_fused_of_light(self, now, answers);
}

/* A level that slopes under the pulses, as movement makes it, turns the tangent and with it the foot; more of it spoils heights too. */
static void ss_joint_path_note_level(ss_joint_path_t *self, const ss_pulse_event_t *pulse)
{
    int64_t change = (int64_t)(pulse->starts_run ? 0 : ss_sat_abs32(pulse->level_codes - self->level));
    self->level = pulse->level_codes;
    self->is_sloping = (change * (int64_t)SS_JOINT_PATH_SLOPE_FOR_FEET) > (int64_t)pulse->amplitude_codes;
    self->since_slope = (uint8_t)(((change * (int64_t)SS_JOINT_PATH_SLOPE_FOR_HEIGHTS) > (int64_t)pulse->amplitude_codes) ? 0
        : ((self->since_slope < 255) ? (uint8_t)(self->since_slope + 1) : self->since_slope));
}

static void ss_joint_path_take_cadence(const ss_joint_path_t *self, const ss_found_t *found, int64_t now, ss_answer_list_t *answers)
{
    if (found->is_trusted && (found->rate_milli > 0)) {
        ss_reading_t reading = ss_reading_make(SS_READING_KIND_CADENCE, found->rate_milli, found->quality, found->tick * INT64_C(256),
            INT64_C(0));
        ss_joint_path_give(&reading, SS_CHANNEL_ROLE_ACCEL_X, self->accel_step, now, answers);
    }
}

/* A pair was found, or an R peak has none: the joint gate hears of it before it judges. */
static void ss_joint_path_note_arrival(ss_joint_path_t *self, bool is_pair)
{
    if (is_pair || ss_arrival_is_outlier(&self->arrival)) {
        ss_joint_gate_arrival(&self->gates.joint, ss_sample_position_in256(ss_arrival_foot(&self->arrival)) * (int64_t)self->light_step,
            self->arrival.time_us);
    }

    self->partners = (uint8_t)((is_pair || ss_arrival_is_outlier(&self->arrival))
        ? (uint8_t)((ss_shift_left32(self->partners, 1) & 255) | (is_pair ? 1 : 0)) : self->partners);
    int64_t place256 = 0;
    while (ss_arrival_take_unpaired(&self->arrival, &place256)) {
        ss_joint_gate_unpaired(&self->gates.joint, place256);
        self->partners = (uint8_t)(ss_shift_left32(self->partners, 1) & 255);
    }

    /* Eight in a row at the usual time do not come by chance: that leaves them a seventh of the reach. */
    ss_pulse_gate_partners(&self->gates.pulse, self->partners == 255);

    self->has_arrival = is_pair;
}

static void ss_joint_path_give_arrival(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers)
{
    if (!self->has_arrival) {
        return;
    }

    self->has_arrival = false;
    if (!ss_joint_gate_is_open_for_median(&self->gates.joint)) {
        return;
    }

    ss_reading_t latest_value = ss_arrival_latest(&self->arrival);
    ss_reading_t arrival = ss_joint_path_least(&latest_value, ss_joint_gate_quality(&self->gates.joint));
    if (ss_joint_gate_is_open(&self->gates.joint) && !self->is_sloping) {
        ss_answer_t changed = ss_joint_path_at(SS_ANSWER_KIND_READING, self->light, ss_arrival_foot(&self->arrival), arrival.quality, now);
        changed.reading = SS_READING_KIND_ARRIVAL;
        changed.value = self->arrival.time_us;
        changed.paired_role = SS_CHANNEL_ROLE_ECG;
        changed.paired = ss_arrival_r_peak(&self->arrival);
        ss_answer_list_add(answers, &changed);
    }

    if (ss_arrival_spot_add(&self->spot, &arrival)) {
        ss_reading_t latest_value_2 = ss_arrival_spot_latest(&self->spot);
        ss_joint_path_give(&latest_value_2, self->light, self->light_step, now, answers);
        ss_reading_t spread_value = ss_arrival_spot_spread(&self->spot);
        ss_joint_path_give(&spread_value, self->light, self->light_step, now, answers);
        ss_joint_path_give_pressure(self, now, answers);
    }
}

static void ss_joint_path_give_pressure(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers)
{
    ss_reading_t systolic;
    ss_reading_t diastolic;
    ss_reading_t change;
    ss_reading_t latest_value = ss_arrival_spot_latest(&self->spot);
    ss_reading_t spread_value = ss_arrival_spot_spread(&self->spot);
    if (!ss_pressure_path_estimate(&self->pressure, self->clock, &latest_value, &spread_value, &self->shown_ecg, &systolic, &diastolic,
        &change)) {
        return;
    }

    ss_joint_path_give(&systolic, self->light, self->light_step, now, answers);
    ss_joint_path_give(&diastolic, self->light, self->light_step, now, answers);
    if (change.kind == SS_READING_KIND_PRESSURE_TREND) {
        ss_joint_path_give(&change, self->light, self->light_step, now, answers);
    }
}

static void ss_joint_path_give_rhythm(const ss_joint_path_t *self, int64_t place256, uint8_t quality, int64_t now,
    ss_answer_list_t *answers)
{
    ss_answer_t at_value = ss_joint_path_at((ss_answer_kind_t)(self->rhythm.is_irregular ? SS_ANSWER_KIND_IRREGULAR_RHYTHM
        : SS_ANSWER_KIND_REGULAR_RHYTHM), SS_CHANNEL_ROLE_ECG, ss_sample_position_from256(place256 / (int64_t)self->ecg_step), quality,
        now);
    ss_answer_list_add(answers, &at_value);
}

/* A rate of the light has to be near that of the ECG: the nearer the younger that is. Without one, that of the spectrum, if sure, speaks. */
static bool ss_joint_path_is_trusted(const ss_reading_t *reading, int64_t from256)
{
    return (reading->ticks256 - reading->window_ticks256) >= from256;
}

static ss_reading_t ss_joint_path_least(const ss_reading_t *reading, uint8_t quality)
{
    ss_reading_t chosen;
    if (reading->quality <= quality) {
        chosen = (*reading);
    }
    else {
        ss_reading_t changed = (*reading);
        changed.quality = quality;
        chosen = changed;
    }
    return chosen;
}

void ss_joint_path_give(const ss_reading_t *reading, ss_channel_role_t role, int32_t step, int64_t now, ss_answer_list_t *answers)
{
    ss_answer_t changed = ss_joint_path_at(SS_ANSWER_KIND_READING, role, ss_sample_position_from256(reading->ticks256 / (int64_t)step),
        reading->quality, now);
    changed.reading = reading->kind;
    changed.value = reading->value_milli;
    changed.window_samples = ((reading->window_ticks256 / (int64_t)step) + INT64_C(128)) / INT64_C(256);
    ss_answer_list_add(answers, &changed);
}
