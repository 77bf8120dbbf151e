/* SPDX-License-Identifier: MIT */
/*
 * The detection library in C: what a user includes. Samples of an ECG, an optical and an acceleration sensor in, beats, pulses and readings out;
 * integers only, no memory but the state that the caller keeps, no waiting, nothing of the C library but memset and memcpy.
 *
 *     static ss_library_t library;
 *     static ss_answer_t room[SS_ANSWER_LIST_MOST];
 *
 *     ss_library_setup_t setup = { 0 };                      what the stream is like
 *     setup.clock.ticks_per_second = 1000;
 *     setup.channels.at[SS_CHANNEL_ROLE_ECG] = ...;
 *     ss_library_options_t options = ss_library_options_default();
 *     if (ss_library_start(&library, &setup, &options) != SS_CHANNEL_ROLE_NONE) ...
 *
 *     ss_answer_list_t answers = ss_answer_list_make(ss_room_answer_of(room, SS_ANSWER_LIST_MOST));
 *     ss_library_take(&library, &input, until_tick, &answers);   until_tick at most library.slice_end_tick
 *     for (int32_t i = 0; i < answers.count; i++) ... *ss_answer_list_at(&answers, i)
 *     ss_answer_list_clear(&answers);
 *
 *     ss_library_flush(&library, &answers);                  no more samples follow
 *
 * adapter/library_adapter.h does the cutting into slices.
 */
#ifndef SENSORSIM_LIBRARY_H
#define SENSORSIM_LIBRARY_H

/* Name and version: what a detector or a board that is nothing but this library calls itself. */
#define SS_LIBRARY_NAME "sensorsim 0.9 in C"

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/gate_reason.h"
#include "common/reading.h"
#include "common/sample_flags.h"
#include "control/level_controller.h"
#include "control/level_settings.h"
#include "control/power_controller.h"
#include "control/power_settings.h"
#include "pipeline/answer.h"
#include "pipeline/library.h"
#include "pipeline/library_input.h"
#include "pipeline/library_options.h"
#include "pipeline/library_setup.h"
#include "pressure/pressure_calibration.h"
#include "pressure/pressure_model.h"
#include "pressure/pressure_refusal.h"
#include "readings/oxygen_table.h"

/* The whole state fits into 8 KiB. */
SS_CHECK(state_fits, sizeof(ss_library_t) <= 8192);

#endif
