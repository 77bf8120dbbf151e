/* SPDX-License-Identifier: MIT */
/* The detection library as the detector of a session. */
#include "library_board.h"

#include <string.h>

#include "beats/beat_windows.h"
#include "common/common_clock.h"
#include "common/reading.h"
#include "pipeline/channel_role.h"
#include "pipeline/library_input.h"
#include "pressure/pressure_estimator.h"
#include "pulses/pulse_windows.h"
#include "sensorsim_library.h"

#define TEXT_OF(number) #number
#define NUMBER(number) TEXT_OF(number)

/* Seconds after tick 0 up to which the library's days fit their field, whatever time of day was told (31,700 years). */
#define LATEST_BEGIN_S INT64_C(1000000000000)

/* Kinds of marks, as docs/link-protocol.md numbers them. */
enum {
    R_PEAK = 0,
    PULSE_FOOT_TANGENT = 10,
    PULSE_FOOT_SECOND_DERIVATIVE = 11,
    STEEPEST_POINT = 12,
    SYSTOLIC_PEAK = 13,
    HEART_RATE_BPM = 21,
    ARRIVAL_TIME_MS = 22,
    RESPIRATION_RATE_BPM = 23,
    GATE_OPEN = 24,
    GATE_SHUT = 25,
    SYSTOLIC_MMHG = 29,
    DIASTOLIC_MMHG = 30,
    SPO2_PERCENT = 32,
    PERFUSION_INDEX_PERCENT = 33,
    HEART_RATE_FUSED_BPM = 34,
    RR_MEAN_MS = 35,
    SDNN_MS = 36,
    RMSSD_MS = 37,
    ARRIVAL_SPOT_MS = 38,
    ARRIVAL_SPREAD_MS = 39,
    IRREGULAR_RHYTHM = 40,
    REGULAR_RHYTHM = 41,
    JOINT_GATE_OPEN = 42,
    JOINT_GATE_SHUT = 43,
    CADENCE_PER_MIN = 44,
    PRESSURE_TREND_MMHG = 45,
};

static const uint8_t kind_of_answer[] = {
    [SS_ANSWER_KIND_R_PEAK] = R_PEAK,
    [SS_ANSWER_KIND_FOOT_TANGENT] = PULSE_FOOT_TANGENT,
    [SS_ANSWER_KIND_FOOT_SECOND_DERIVATIVE] = PULSE_FOOT_SECOND_DERIVATIVE,
    [SS_ANSWER_KIND_STEEPEST_POINT] = STEEPEST_POINT,
    [SS_ANSWER_KIND_SYSTOLIC_PEAK] = SYSTOLIC_PEAK,
    [SS_ANSWER_KIND_GATE_OPEN] = GATE_OPEN,
    [SS_ANSWER_KIND_GATE_SHUT] = GATE_SHUT,
    [SS_ANSWER_KIND_JOINT_GATE_OPEN] = JOINT_GATE_OPEN,
    [SS_ANSWER_KIND_JOINT_GATE_SHUT] = JOINT_GATE_SHUT,
    [SS_ANSWER_KIND_IRREGULAR_RHYTHM] = IRREGULAR_RHYTHM,
    [SS_ANSWER_KIND_REGULAR_RHYTHM] = REGULAR_RHYTHM,
};

static const uint8_t kind_of_reading[] = {
    [SS_READING_KIND_HEART_RATE_ECG] = HEART_RATE_BPM,
    [SS_READING_KIND_HEART_RATE_PULSE] = HEART_RATE_BPM,
    [SS_READING_KIND_HEART_RATE_FUSED] = HEART_RATE_FUSED_BPM,
    [SS_READING_KIND_RR_MEAN] = RR_MEAN_MS,
    [SS_READING_KIND_SDNN] = SDNN_MS,
    [SS_READING_KIND_RMSSD] = RMSSD_MS,
    [SS_READING_KIND_ARRIVAL] = ARRIVAL_TIME_MS,
    [SS_READING_KIND_ARRIVAL_SPOT] = ARRIVAL_SPOT_MS,
    [SS_READING_KIND_ARRIVAL_SPREAD] = ARRIVAL_SPREAD_MS,
    [SS_READING_KIND_SPO2] = SPO2_PERCENT,
    [SS_READING_KIND_PERFUSION_INDEX] = PERFUSION_INDEX_PERCENT,
    [SS_READING_KIND_RESPIRATION_RATE] = RESPIRATION_RATE_BPM,
    [SS_READING_KIND_CADENCE] = CADENCE_PER_MIN,
    [SS_READING_KIND_SYSTOLIC] = SYSTOLIC_MMHG,
    [SS_READING_KIND_DIASTOLIC] = DIASTOLIC_MMHG,
    [SS_READING_KIND_PRESSURE_TREND] = PRESSURE_TREND_MMHG,
};

static void begin(void *context) {
    ss_library_board *board = context;
    memset(board, 0, sizeof *board);
    ss_library_told_begin(&board->room.told);
}

static int setup(void *context, const ss_link_item *items, unsigned count) {
    ss_library_board *board = context;
    ss_library_told told = board->room.told;
    for (unsigned i = 0; i < count; i++) {
        if (!ss_library_told_item(&told, items[i].item, items[i].index, items[i].value)) {
            return 0;
        }
    }
    board->room.told = told;
    return 1;
}

static const char *told(void *context) {
    ss_library_board *board = context;
    if (!ss_library_told_end(&board->room.told)) {
        return "the oxygen table is not complete, or its ratios do not rise, or its saturations do not fall";
    }
    /* Tried where it will stand; the start begins the library anew. */
    const ss_pressure_calibration_t *pressure = &board->room.told.options.pressure;
    if (pressure->points > 0 && !ss_pressure_estimator_calibrate(&board->library.joint.pressure.estimator, pressure)) {
        return "the calibration of pressure is not complete, or contradicts itself";
    }
    return NULL;
}

/* Channels are numbered alike in the format and in the library: ecg, red, infrared, green, dark, three axes. */
static ss_library_setup_t setup_of(ss_library_board *board, const ss_link_format *format) {
    ss_library_setup_t stream;
    memset(&stream, 0, sizeof stream);
    stream.clock = ss_common_clock_make(format->ticks_per_second);
    memset(board->channel_of, SS_LINK_NOT_PAIRED, sizeof board->channel_of);
    for (uint8_t c = 0; c < format->channel_count; c++) {
        ss_link_channel channel;
        ss_link_get_channel(format, c, &channel);
        ss_channel_setup_t *to = &stream.channels.at[channel.name];
        to->rate_hz = (int32_t)channel.rate_hz;
        to->ticks_per_sample = (int32_t)channel.ticks_per_sample;
        to->polarity = channel.falls ? -1 : 1;
        to->zero_code = channel.zero_code;
        to->codes_per_unit256 = channel.codes_per_unit256;
        to->delay256 = channel.delay256;
        board->channel_of[channel.name] = c;
    }
    return stream;
}

/* The begin in whole seconds is the base: each channel has a whole number of samples in it, and the grid of tenths is that of the stream. */
static int64_t set_base(ss_library_board *board, const ss_link_format *format, int64_t begin_tick) {
    const int64_t base_s = begin_tick / format->ticks_per_second;
    board->base_tick = base_s * format->ticks_per_second;
    for (uint8_t c = 0; c < format->channel_count; c++) {
        ss_link_channel channel;
        ss_link_get_channel(format, c, &channel);
        board->base_sample[c] = base_s * channel.rate_hz;
    }
    return base_s;
}

static const char *start(void *context, const ss_link_format *format, int64_t begin_tick) {
    ss_library_board *board = context;
    if (begin_tick / format->ticks_per_second > LATEST_BEGIN_S) {
        return "samples begin later than 1,000,000,000,000 s after tick 0";
    }
    const ss_library_setup_t stream = setup_of(board, format);
    if (!ss_channel_setup_is_there(&stream.channels.at[SS_CHANNEL_ROLE_ECG]) && ss_library_setup_light(&stream) == SS_CHANNEL_ROLE_NONE) {
        return "the stream has neither ecg nor red, infrared or green; the library needs one of them";
    }
    ss_library_options_t options = board->room.told.options;
    options.start_s += set_base(board, format, begin_tick);
    const ss_channel_role_t refused = ss_library_start(&board->library, &stream, &options);
    if (refused == SS_CHANNEL_ROLE_ECG) {
        return "the rate of ecg is one that the library does not take: from " NUMBER(SS_BEAT_WINDOWS_MINIMUM_RATE_HZ) " to "
            NUMBER(SS_BEAT_WINDOWS_MAXIMUM_RATE_HZ) " Hz";
    }
    if (refused != SS_CHANNEL_ROLE_NONE) {
        return "the rate of the light is one that the library does not take: from " NUMBER(SS_PULSE_WINDOWS_MINIMUM_RATE_HZ) " to "
            NUMBER(SS_PULSE_WINDOWS_MAXIMUM_RATE_HZ) " Hz";
    }
    /* From here on what was told is no longer needed, and its place is taken by answers. */
    board->answers = ss_answer_list_make(ss_room_answer_of(board->room.answers, SS_LIBRARY_ANSWERS));
    board->next = 0;
    return NULL;
}

static ss_channel_piece_t piece_of(const ss_library_board *board, ss_channel_role_t role, const ss_board_piece *piece) {
    const uint8_t channel = board->channel_of[role];
    ss_channel_piece_t of;
    memset(&of, 0, sizeof of);
    if (channel != SS_LINK_NOT_PAIRED && piece->channels[channel].count > 0u) {
        const ss_board_run *run = &piece->channels[channel];
        of.codes.at = run->codes;
        of.codes.length = (int32_t)run->count;
        of.status.at = run->status;
        of.status.length = (int32_t)run->count;
        of.first_index = run->first - board->base_sample[channel];
    }
    return of;
}

/* By hand, not by the library's function: a repeated frame then adds nothing to the counts of the library's instructions. */
static void forget_fetched(ss_library_board *board) {
    board->answers.count = 0;
    board->next = 0;
}

/* One slice: up to the end of the library's present tenth of a second, or of the piece. */
static int64_t take(void *context, const ss_board_piece *piece) {
    ss_library_board *board = context;
    const int64_t slice_end = board->library.slice_end_tick;
    const int64_t piece_end = piece->until_tick - board->base_tick;
    const int64_t until = piece_end < slice_end ? piece_end : slice_end;
    forget_fetched(board);
    if (until <= ss_library_now_tick(&board->library)) {
        return until + board->base_tick;
    }
    ss_library_input_t input;
    input.ecg = piece_of(board, SS_CHANNEL_ROLE_ECG, piece);
    input.red = piece_of(board, SS_CHANNEL_ROLE_RED, piece);
    input.infrared = piece_of(board, SS_CHANNEL_ROLE_INFRARED, piece);
    input.green = piece_of(board, SS_CHANNEL_ROLE_GREEN, piece);
    input.dark = piece_of(board, SS_CHANNEL_ROLE_DARK, piece);
    input.accel_x = piece_of(board, SS_CHANNEL_ROLE_ACCEL_X, piece);
    input.accel_y = piece_of(board, SS_CHANNEL_ROLE_ACCEL_Y, piece);
    input.accel_z = piece_of(board, SS_CHANNEL_ROLE_ACCEL_Z, piece);
    ss_library_take(&board->library, &input, until, &board->answers);
    return until + board->base_tick;
}

static void flush(void *context) {
    ss_library_board *board = context;
    forget_fetched(board);
    ss_library_flush(&board->library, &board->answers);
}

static int answer(void *context, ss_link_mark *mark) {
    ss_library_board *board = context;
    if (board->next >= board->answers.count) {
        return 0;
    }
    const ss_answer_t *from = ss_answer_list_at(&board->answers, board->next);
    board->next++;
    memset(mark, 0, sizeof *mark);
    mark->kind = from->kind == SS_ANSWER_KIND_READING ? kind_of_reading[from->reading] : kind_of_answer[from->kind];
    mark->channel = board->channel_of[from->role];
    mark->quality = from->quality;
    mark->sample = from->place.sample + board->base_sample[mark->channel];
    mark->fraction256 = from->place.fraction256;
    mark->window_samples = from->window_samples;
    mark->emitted_tick = from->emitted_tick + board->base_tick;
    mark->paired_channel = SS_LINK_NOT_PAIRED;
    if (from->paired_role != SS_CHANNEL_ROLE_NONE) {
        mark->paired_channel = board->channel_of[from->paired_role];
        mark->paired_sample = from->paired.sample + board->base_sample[mark->paired_channel];
        mark->paired_fraction256 = from->paired.fraction256;
    }
    switch (from->kind) {
    case SS_ANSWER_KIND_R_PEAK:
        mark->has_value = 1;
        mark->is_in_codes = 1;
        mark->value = from->value;
        break;
    case SS_ANSWER_KIND_READING:
        mark->has_value = 1;
        mark->value = from->value;
        break;
    case SS_ANSWER_KIND_GATE_SHUT:
    case SS_ANSWER_KIND_JOINT_GATE_SHUT:
        /* The number of a reason, in thousandths like every value. */
        mark->has_value = 1;
        mark->value = from->value * 1000;
        break;
    default:
        mark->value = from->value;
        break;
    }
    return 1;
}

static uint32_t lost(void *context) {
    const ss_library_board *board = context;
    return (uint32_t)board->answers.lost_count;
}

const ss_board_detector ss_library_detector = {
    SS_LIBRARY_NAME, (uint32_t)sizeof(ss_library_t), begin, setup, told, start, take, flush, answer, NULL, NULL, lost,
};
