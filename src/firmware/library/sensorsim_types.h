/* Generated from all files of SensorSim.FixedPoint and SensorSim.Detection; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
/* Names of all types, so that headers need each other only for what they hold. */
#ifndef SS_SENSORSIM_TYPES_H
#define SS_SENSORSIM_TYPES_H

#include "sensorsim_runtime.h"

typedef struct ss_dark_subtraction ss_dark_subtraction_t;
typedef struct ss_lit_slot ss_lit_slot_t;
typedef struct ss_band_pass ss_band_pass_t;
typedef struct ss_band_sum ss_band_sum_t;
typedef struct ss_beat_candidate ss_beat_candidate_t;
typedef struct ss_beat_detector ss_beat_detector_t;
typedef struct ss_beat_doubt ss_beat_doubt_t;
typedef struct ss_beat_event ss_beat_event_t;
typedef struct ss_beat_gaps ss_beat_gaps_t;
typedef struct ss_beat_judge ss_beat_judge_t;
typedef struct ss_beat_learning ss_beat_learning_t;
typedef struct ss_beat_levels ss_beat_levels_t;
typedef struct ss_beat_locator ss_beat_locator_t;
typedef struct ss_beat_memory ss_beat_memory_t;
typedef struct ss_beat_rhythm ss_beat_rhythm_t;
typedef struct ss_beat_shape ss_beat_shape_t;
typedef struct ss_beat_sum ss_beat_sum_t;
typedef struct ss_beat_template ss_beat_template_t;
typedef struct ss_beat_windows ss_beat_windows_t;
typedef struct ss_word32 ss_word32_t;
typedef struct ss_wide4 ss_wide4_t;
typedef struct ss_slopes16 ss_slopes16_t;
typedef struct ss_peak_finder ss_peak_finder_t;
typedef struct ss_qrs_energy ss_qrs_energy_t;
typedef struct ss_spike_filter ss_spike_filter_t;
typedef struct ss_common_clock ss_common_clock_t;
typedef struct ss_control_request ss_control_request_t;
typedef uint8_t ss_control_role_t;
typedef uint8_t ss_control_setting_t;
typedef uint8_t ss_gain_wish_t;
typedef struct ss_lamp ss_lamp_t;
typedef struct ss_level_controller ss_level_controller_t;
typedef struct ss_level_controller_lamps3 ss_level_controller_lamps3_t;
typedef struct ss_level_settings ss_level_settings_t;
typedef struct ss_power_controller ss_power_controller_t;
typedef struct ss_power_controller_words3 ss_power_controller_words3_t;
typedef struct ss_power_settings ss_power_settings_t;
typedef struct ss_second_mean ss_second_mean_t;
typedef struct ss_ecg_gate ss_ecg_gate_t;
typedef struct ss_evidence ss_evidence_t;
typedef struct ss_gate_latch ss_gate_latch_t;
typedef struct ss_gate_time ss_gate_time_t;
typedef struct ss_gate_half8 ss_gate_half8_t;
typedef struct ss_joint_gate ss_joint_gate_t;
typedef struct ss_pulse_gate ss_pulse_gate_t;
typedef struct ss_usable ss_usable_t;
typedef uint8_t ss_gate_reason_t;
typedef struct ss_cadence_tracker ss_cadence_tracker_t;
typedef struct ss_canceller ss_canceller_t;
typedef struct ss_half_ring ss_half_ring_t;
typedef struct ss_movement_level ss_movement_level_t;
typedef struct ss_movement_reference ss_movement_reference_t;
typedef struct ss_word12 ss_word12_t;
typedef struct ss_word4 ss_word4_t;
typedef struct ss_power4 ss_power4_t;
typedef struct ss_half64 ss_half64_t;
typedef struct ss_half80 ss_half80_t;
typedef struct ss_byte80 ss_byte80_t;
typedef struct ss_half104 ss_half104_t;
typedef struct ss_pulse_spectrum ss_pulse_spectrum_t;
typedef struct ss_rate_track ss_rate_track_t;
typedef struct ss_spectrum_pair ss_spectrum_pair_t;
typedef uint8_t ss_answer_kind_t;
typedef struct ss_answer ss_answer_t;
typedef struct ss_answer_list ss_answer_list_t;
typedef struct ss_beside ss_beside_t;
typedef uint8_t ss_channel_role_t;
typedef struct ss_channel_state ss_channel_state_t;
typedef struct ss_ecg_path ss_ecg_path_t;
typedef uint8_t ss_found_kind_t;
typedef struct ss_found ss_found_t;
typedef struct ss_found_list ss_found_list_t;
typedef struct ss_found_list_items ss_found_list_items_t;
typedef struct ss_found_list_beat_events ss_found_list_beat_events_t;
typedef struct ss_found_list_pulse_events ss_found_list_pulse_events_t;
typedef struct ss_gates ss_gates_t;
typedef struct ss_grid_cursor ss_grid_cursor_t;
typedef struct ss_joint_path ss_joint_path_t;
typedef struct ss_library ss_library_t;
typedef struct ss_channel_piece ss_channel_piece_t;
typedef struct ss_library_input ss_library_input_t;
typedef struct ss_library_options ss_library_options_t;
typedef struct ss_channel_setup ss_channel_setup_t;
typedef struct ss_library_setup ss_library_setup_t;
typedef struct ss_library_setup_channel_setups ss_library_setup_channel_setups_t;
typedef struct ss_light_path ss_light_path_t;
typedef struct ss_light_path_colour_setup ss_light_path_colour_setup_t;
typedef struct ss_movement_path ss_movement_path_t;
typedef struct ss_pressure_path ss_pressure_path_t;
typedef struct ss_tuning ss_tuning_t;
typedef struct ss_cuff_point ss_cuff_point_t;
typedef struct ss_cusum ss_cusum_t;
typedef struct ss_pressure_calibration ss_pressure_calibration_t;
typedef struct ss_pressure_estimator ss_pressure_estimator_t;
typedef uint8_t ss_pressure_model_t;
typedef uint8_t ss_pressure_refusal_t;
typedef struct ss_pressure_trend ss_pressure_trend_t;
typedef struct ss_pressure_trend_part_values ss_pressure_trend_part_values_t;
typedef struct ss_pressure_trend_part_counts ss_pressure_trend_part_counts_t;
typedef struct ss_trend_settings ss_trend_settings_t;
typedef struct ss_cubic_fit ss_cubic_fit_t;
typedef struct ss_cubic_fit_weights16 ss_cubic_fit_weights16_t;
typedef struct ss_cubic_fits ss_cubic_fits_t;
typedef struct ss_foot_locator ss_foot_locator_t;
typedef struct ss_light_input ss_light_input_t;
typedef struct ss_pulse_detector ss_pulse_detector_t;
typedef struct ss_pulse_event ss_pulse_event_t;
typedef struct ss_pulse_learning ss_pulse_learning_t;
typedef struct ss_pulse_levels ss_pulse_levels_t;
typedef struct ss_pulse_noise ss_pulse_noise_t;
typedef struct ss_pulse_pace ss_pulse_pace_t;
typedef struct ss_pulse_rise ss_pulse_rise_t;
typedef struct ss_pulse_windows ss_pulse_windows_t;
typedef struct ss_sample_marks ss_sample_marks_t;
typedef struct ss_upstroke_finder ss_upstroke_finder_t;
typedef struct ss_watch_slope ss_watch_slope_t;
typedef uint8_t ss_reading_kind_t;
typedef struct ss_reading ss_reading_t;
typedef struct ss_arrival ss_arrival_t;
typedef struct ss_arrival_median ss_arrival_median_t;
typedef struct ss_arrival_spot ss_arrival_spot_t;
typedef struct ss_beat_clock ss_beat_clock_t;
typedef struct ss_beat_window ss_beat_window_t;
typedef struct ss_breath_series ss_breath_series_t;
typedef struct ss_breath_spectrum ss_breath_spectrum_t;
typedef struct ss_breath_spectrum_folded ss_breath_spectrum_folded_t;
typedef struct ss_breath_spectrum_folds ss_breath_spectrum_folds_t;
typedef struct ss_breath_spectrum_powers ss_breath_spectrum_powers_t;
typedef struct ss_colour_band ss_colour_band_t;
typedef struct ss_colour_sums ss_colour_sums_t;
typedef struct ss_fused_rate ss_fused_rate_t;
typedef struct ss_heart_rate ss_heart_rate_t;
typedef struct ss_oxygen ss_oxygen_t;
typedef struct ss_oxygen_table ss_oxygen_table_t;
typedef struct ss_perfusion_index ss_perfusion_index_t;
typedef struct ss_respiration ss_respiration_t;
typedef struct ss_rhythm_check ss_rhythm_check_t;
typedef struct ss_rhythm_check_matches ss_rhythm_check_matches_t;
typedef struct ss_long4 ss_long4_t;
typedef struct ss_byte4 ss_byte4_t;
typedef struct ss_byte8 ss_byte8_t;
typedef struct ss_readings_half8 ss_readings_half8_t;
typedef struct ss_half16 ss_half16_t;
typedef struct ss_half32 ss_half32_t;
typedef struct ss_half48 ss_half48_t;
typedef struct ss_signed64 ss_signed64_t;
typedef struct ss_mask32 ss_mask32_t;
typedef struct ss_rr_variability ss_rr_variability_t;
typedef struct ss_rr_variability_block ss_rr_variability_block_t;
typedef struct ss_rr_variability_blocks ss_rr_variability_blocks_t;
typedef struct ss_sample_position ss_sample_position_t;
typedef struct ss_moving_sum ss_moving_sum_t;
typedef struct ss_word8 ss_word8_t;
typedef struct ss_word16 ss_word16_t;
typedef struct ss_word64 ss_word64_t;
typedef struct ss_word256 ss_word256_t;
typedef struct ss_word512 ss_word512_t;

/* Room for consecutive values of the caller. */
typedef struct ss_room_answer {
    ss_answer_t *at;
    int32_t length;
} ss_room_answer_t;

static inline ss_room_answer_t ss_room_answer_of(ss_answer_t *at, int32_t length)
{
    ss_room_answer_t view;
    view.at = at;
    view.length = length;
    return view;
}

/* Room for consecutive values of the caller. */
typedef struct ss_room_int32 {
    int32_t *at;
    int32_t length;
} ss_room_int32_t;

static inline ss_room_int32_t ss_room_int32_of(int32_t *at, int32_t length)
{
    ss_room_int32_t view;
    view.at = at;
    view.length = length;
    return view;
}

static inline ss_room_int32_t ss_room_int32_slice(ss_room_int32_t whole, int32_t start, int32_t length)
{
    ss_room_int32_t view;
    view.at = &whole.at[start];
    view.length = length;
    return view;
}

static inline ss_room_int32_t ss_room_int32_from(ss_room_int32_t whole, int32_t start)
{
    ss_room_int32_t view;
    view.at = &whole.at[start];
    view.length = whole.length - start;
    return view;
}

/* Consecutive values of the caller, only read. */
typedef struct ss_view_int16 {
    const int16_t *at;
    int32_t length;
} ss_view_int16_t;

static inline ss_view_int16_t ss_view_int16_of(const int16_t *at, int32_t length)
{
    ss_view_int16_t view;
    view.at = at;
    view.length = length;
    return view;
}

static inline ss_view_int16_t ss_view_int16_slice(ss_view_int16_t whole, int32_t start, int32_t length)
{
    ss_view_int16_t view;
    view.at = &whole.at[start];
    view.length = length;
    return view;
}

static inline ss_view_int16_t ss_view_int16_from(ss_view_int16_t whole, int32_t start)
{
    ss_view_int16_t view;
    view.at = &whole.at[start];
    view.length = whole.length - start;
    return view;
}

/* Consecutive values of the caller, only read. */
typedef struct ss_view_int32 {
    const int32_t *at;
    int32_t length;
} ss_view_int32_t;

static inline ss_view_int32_t ss_view_int32_of(const int32_t *at, int32_t length)
{
    ss_view_int32_t view;
    view.at = at;
    view.length = length;
    return view;
}

static inline ss_view_int32_t ss_view_int32_slice(ss_view_int32_t whole, int32_t start, int32_t length)
{
    ss_view_int32_t view;
    view.at = &whole.at[start];
    view.length = length;
    return view;
}

static inline ss_view_int32_t ss_view_int32_from(ss_view_int32_t whole, int32_t start)
{
    ss_view_int32_t view;
    view.at = &whole.at[start];
    view.length = whole.length - start;
    return view;
}

/* Consecutive values of the caller, only read. */
typedef struct ss_view_uint16 {
    const uint16_t *at;
    int32_t length;
} ss_view_uint16_t;

static inline ss_view_uint16_t ss_view_uint16_of(const uint16_t *at, int32_t length)
{
    ss_view_uint16_t view;
    view.at = at;
    view.length = length;
    return view;
}

static inline ss_view_uint16_t ss_view_uint16_slice(ss_view_uint16_t whole, int32_t start, int32_t length)
{
    ss_view_uint16_t view;
    view.at = &whole.at[start];
    view.length = length;
    return view;
}

static inline ss_view_uint16_t ss_view_uint16_from(ss_view_uint16_t whole, int32_t start)
{
    ss_view_uint16_t view;
    view.at = &whole.at[start];
    view.length = whole.length - start;
    return view;
}

#endif
