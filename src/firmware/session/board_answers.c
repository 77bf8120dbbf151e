/* SPDX-License-Identifier: MIT */
/* Frames from the board to the host. */
#include <string.h>

#include "board_parts.h"

enum { MARKS_MOST = 5, VERSION = 1, FIGURES_MOST = 20 };

/* The body of a frame begins after one byte of COBS, its payload after the header. */
uint8_t *ss_board_payload(ss_board *board) {
    return board->wire + SS_LINK_PAYLOAD_AT;
}

void ss_board_send(ss_board *board, uint8_t type, uint32_t length) {
    board->wire_count = (uint16_t)ss_link_frame_finish(board->wire, board->out_sequence, type, (uint16_t)length);
    board->wire_at = 0;
    board->out_sequence++;
}

void ss_board_owe_trouble(ss_board *board, uint16_t code, uint32_t sequence, const char *text) {
    board->trouble_code = code;
    board->trouble_sequence = sequence;
    board->trouble_text = text;
    board->owed |= SS_OWED_TROUBLE;
}

static uint32_t put_text(uint8_t *at, uint32_t used, const char *text) {
    while (used < SS_LINK_PAYLOAD_MOST && *text != '\0') {
        at[used++] = (uint8_t)*text++;
    }
    return used;
}

static void send_about(ss_board *board) {
    const ss_link_about about = {
        .session = board->session,
        .version = VERSION,
        .payload_most = SS_LINK_PAYLOAD_MOST,
        .credit = board->credit,
        .state_bytes = board->detector->state_bytes,
    };
    uint8_t *payload = ss_board_payload(board);
    board->out_sequence = 0;
    ss_board_send(board, SS_LINK_ABOUT, put_text(payload, ss_link_write_about(payload, &about), board->detector->name));
}

static void send_trouble(ss_board *board) {
    uint8_t *payload = ss_board_payload(board);
    const uint32_t used = ss_link_write_trouble(payload, board->trouble_code, board->trouble_sequence);
    ss_board_send(board, SS_LINK_TROUBLE, put_text(payload, used, board->trouble_text));
}

static void send_accepted(ss_board *board) {
    ss_board_send(board, SS_LINK_ACCEPTED, ss_link_write_accepted(ss_board_payload(board), board->accepted_type, board->accepted_sequence));
}

/* One part of the format; the next one is owed as long as there are channels left. */
static void send_format(ss_board *board) {
    const uint8_t left = (uint8_t)(board->format.channel_count - board->channels_owed);
    const uint8_t count = left > SS_LINK_FORMAT_PART ? SS_LINK_FORMAT_PART : left;
    ss_board_send(board, SS_LINK_FORMAT, ss_link_write_format(ss_board_payload(board), &board->format, board->channels_owed, count));
    board->channels_owed = (uint8_t)(board->channels_owed + count);
    if (board->channels_owed < board->format.channel_count) {
        board->owed |= SS_OWED_FORMAT;
    }
}

static void send_progress(ss_board *board, uint8_t type) {
    const ss_link_progress progress = {
        .session = board->session,
        .credit_sequence = board->last_sequence + board->credit,
        .taken_tick = board->taken_tick,
        .accepted = board->frames_accepted,
        .damaged = board->reader.damaged - board->damaged_before,
        .missing = board->reader.missing - board->missing_before,
        .repeated = board->reader.repeated - board->repeated_before,
        .marks_sent = board->marks_sent,
        .clock_us = board->port->clock_us(board->port->context),
    };
    board->since_progress = 0;
    ss_board_send(board, type, ss_link_write_progress(ss_board_payload(board), &progress));
}

static uint32_t put_figure(uint8_t *payload, uint32_t used, uint16_t figure, uint16_t index, uint64_t value) {
    const ss_link_item item = {figure, index, (int64_t)value};
    return used + ss_link_write_item(payload + used, &item);
}

static void send_figures(ss_board *board) {
    uint8_t *payload = ss_board_payload(board);
    uint32_t used = 0;
    if (board->port->memory != NULL) {
        uint32_t stack_bytes = 0;
        uint32_t stack_used = 0;
        uint32_t bytes_lost = 0;
        board->port->memory(board->port->context, &stack_bytes, &stack_used, &bytes_lost);
        used = put_figure(payload, used, SS_LINK_FIGURE_STACK, 0, stack_bytes);
        used = put_figure(payload, used, SS_LINK_FIGURE_STACK_USED, 0, stack_used);
        used = put_figure(payload, used, SS_LINK_FIGURE_BYTES_LOST, 0, bytes_lost);
    }
    used = put_figure(payload, used, SS_LINK_FIGURE_STATE, 0, board->detector->state_bytes);
    used = put_figure(payload, used, SS_LINK_FIGURE_ANSWERS_LOST, 0, board->answers_lost_told);
    used = put_figure(payload, used, SS_LINK_FIGURE_LONGEST, 0, board->longest_us);
    for (uint16_t stage = 0; stage < SS_STAGES && board->port->timer != NULL; stage++) {
        used = put_figure(payload, used, SS_LINK_FIGURE_STAGE, stage, board->stage_ticks[stage]);
    }
    for (uint16_t channel = 0; channel < board->format.channel_count; channel++) {
        used = put_figure(payload, used, SS_LINK_FIGURE_SAMPLES, channel, board->samples_taken[channel]);
    }
    ss_board_send(board, SS_LINK_FIGURES, used);
}

void ss_board_send_owed(ss_board *board) {
    const uint8_t owed = board->owed;
    const uint8_t first = (uint8_t)(owed & (uint8_t)(0u - owed));
    board->owed = (uint8_t)(owed & (uint8_t)~first);
    switch (first) {
    case SS_OWED_ABOUT:
        send_about(board);
        break;
    case SS_OWED_TROUBLE:
        send_trouble(board);
        break;
    case SS_OWED_ACCEPTED:
        send_accepted(board);
        break;
    case SS_OWED_FORMAT:
        send_format(board);
        break;
    case SS_OWED_FIGURES:
        send_figures(board);
        break;
    case SS_OWED_STOPPED:
        send_progress(board, SS_LINK_STOPPED);
        break;
    default:
        send_progress(board, SS_LINK_PROGRESS);
        break;
    }
}

int ss_board_send_answers(ss_board *board) {
    uint8_t *payload = ss_board_payload(board);
    uint8_t count = 0;
    ss_link_mark mark;
    while (count < MARKS_MOST && board->detector->answer(board->detector_context, &mark)) {
        ss_link_write_mark(payload + 4 + count * SS_LINK_MARK_BYTES, &mark);
        count++;
    }
    if (count > 0u) {
        payload[0] = count;
        payload[1] = 0;
        payload[2] = 0;
        payload[3] = 0;
        board->marks_sent += count;
        ss_board_send(board, SS_LINK_MARKS, 4u + count * (uint32_t)SS_LINK_MARK_BYTES);
        return 1;
    }
    ss_link_setting wish;
    if (board->detector->wish != NULL && board->detector->wish(board->detector_context, &wish)) {
        ss_board_send(board, SS_LINK_REQUEST, ss_link_write_setting(payload, &wish));
        return 1;
    }
    return 0;
}
