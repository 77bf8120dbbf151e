/* SPDX-License-Identifier: MIT */
/* Frames from the board to the host. */
#include <string.h>

#include "board_parts.h"

uint8_t *ss_board_payload(ss_board *board) {
    return ss_link_payload(board->wire);
}

void ss_board_send(ss_board *board, uint8_t type, size_t length) {
    board->out = ss_link_seal(&board->writer, type, length, board->wire, &board->out_count);
}

void ss_board_owe_trouble(ss_board *board, uint16_t code, uint32_t sequence, const char *text) {
    board->trouble_code = code;
    board->trouble_sequence = sequence;
    board->trouble_text = text;
    board->owed |= SS_OWED_TROUBLE;
}

static ss_link_text text_of(const char *text) {
    ss_link_text all = {text, 0};
    while (text[all.length] != '\0') {
        all.length++;
    }
    return all;
}

static void send_about(ss_board *board) {
    ss_link_about about;
    about.session = board->session;
    about.version = SS_LINK_VERSION;
    about.largest_payload = SS_LINK_MAX_PAYLOAD;
    about.credit = board->credit;
    about.state_bytes = board->detector->state_bytes;
    about.detector = text_of(board->detector->name);
    ss_board_send(board, SS_LINK_ABOUT, ss_link_write_about(&about, ss_board_payload(board)));
}

static void send_trouble(ss_board *board) {
    ss_link_trouble trouble;
    trouble.code = board->trouble_code;
    trouble.sequence = board->trouble_sequence;
    trouble.text = text_of(board->trouble_text);
    ss_board_send(board, SS_LINK_TROUBLE, ss_link_write_trouble(&trouble, ss_board_payload(board)));
}

static void send_accepted(ss_board *board) {
    ss_link_accepted accepted;
    accepted.type = board->accepted_type;
    accepted.sequence = board->accepted_sequence;
    ss_board_send(board, SS_LINK_ACCEPTED, ss_link_write_accepted(&accepted, ss_board_payload(board)));
}

/* One frame of the format; the next one is owed as long as there are channels left. */
static void send_format(ss_board *board) {
    const size_t length = ss_link_write_format(&board->format, board->format_owed, ss_board_payload(board));
    board->format_owed++;
    if (board->format_owed * SS_LINK_CHANNELS_EACH < board->format.channel_count) {
        board->owed |= SS_OWED_FORMAT;
    }
    ss_board_send(board, SS_LINK_FORMAT, length);
}

static void send_progress(ss_board *board, uint8_t type) {
    ss_link_progress progress;
    progress.session = board->session;
    progress.credit = board->last_sequence + board->credit;
    progress.taken_tick = board->taken_tick;
    progress.accepted = board->reader.good;
    progress.damaged = board->reader.damaged;
    progress.missing = board->reader.missing;
    progress.repeated = board->reader.repeated;
    progress.marks_sent = board->marks_sent;
    progress.clock_us = board->port->clock_us(board->port->context);
    board->since_progress = 0;
    ss_board_send(board, type, ss_link_write_progress(&progress, ss_board_payload(board)));
}

typedef struct {
    uint8_t *payload;
    size_t length;
    unsigned count;
} figures;

static void put_figure(figures *all, uint16_t figure, uint16_t index, uint64_t value) {
    ss_link_item item;
    item.item = figure;
    item.index = index;
    item.value = (int64_t)value;
    all->length = ss_link_put_item(&item, all->count, all->payload);
    all->count++;
}

/* At most 3 + 3 + 2 + 8 items: one frame. */
static void send_figures(ss_board *board) {
    figures all = {ss_board_payload(board), 0, 0};
    if (board->port->memory != NULL) {
        uint32_t stack_bytes = 0;
        uint32_t stack_used = 0;
        uint32_t bytes_lost = 0;
        board->port->memory(board->port->context, &stack_bytes, &stack_used, &bytes_lost);
        put_figure(&all, SS_LINK_FIGURE_STACK_BYTES, 0, stack_bytes);
        put_figure(&all, SS_LINK_FIGURE_STACK_USED_BYTES, 0, stack_used);
        put_figure(&all, SS_LINK_FIGURE_BYTES_LOST, 0, bytes_lost);
    }
    put_figure(&all, SS_LINK_FIGURE_STATE_BYTES, 0, board->detector->state_bytes);
    put_figure(&all, SS_LINK_FIGURE_ANSWERS_LOST, 0, board->answers_lost_told);
    put_figure(&all, SS_LINK_FIGURE_LONGEST_FRAME_US, 0, board->longest_us);
    for (uint16_t stage = 0; stage < SS_STAGES && board->port->timer != NULL; stage++) {
        put_figure(&all, SS_LINK_FIGURE_STAGE_TIMER_TICKS, stage, board->stage_ticks[stage]);
    }
    for (uint16_t channel = 0; channel < board->format.channel_count; channel++) {
        put_figure(&all, SS_LINK_FIGURE_SAMPLES_TAKEN, channel, board->samples_taken[channel]);
    }
    ss_board_send(board, SS_LINK_FIGURES, all.length);
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
    unsigned count = 0;
    size_t length = 0;
    ss_link_mark mark;
    while (count < SS_LINK_MAX_MARKS && board->detector->answer(board->detector_context, &mark)) {
        length = ss_link_put_mark(&mark, count, payload);
        count++;
    }
    if (count > 0u) {
        board->marks_sent += count;
        ss_board_send(board, SS_LINK_MARKS, length);
        return 1;
    }
    ss_link_setting wish;
    if (board->detector->wish != NULL && board->detector->wish(board->detector_context, &wish)) {
        ss_board_send(board, SS_LINK_REQUEST, ss_link_write_setting(&wish, payload));
        return 1;
    }
    return 0;
}
