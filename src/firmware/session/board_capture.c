/* SPDX-License-Identifier: MIT */
/* Samples of the board's own sensor on their way to the host. */
#include <string.h>

#include "board_parts.h"

void ss_board_capture_begin(ss_board *board) {
    memset(&board->format, 0, sizeof board->format);
    board->source->begin(board->source->context, &board->format);
    ss_board_learn_steps(board);
    board->captured.ticks = 0;
    board->taken_tick = 0;
    board->phase = SS_PHASE_CAPTURING;
}

/* Ticks from one to the next sample of a channel that stands on the grid of its rate. */
static uint32_t to_grid(int64_t tick, uint32_t step) {
    const uint32_t past = (uint32_t)(tick % step);
    return past > 0u ? step - past : 0u;
}

/* Fetches the next stretch. */
static int fetch(ss_board *board) {
    memset(&board->captured, 0, sizeof board->captured);
    if (!board->source->next(board->source->context, board->codes, board->status, &board->captured)) {
        board->captured.ticks = 0;
        return 0;
    }
    board->frame_begin = board->captured.begin_tick;
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        ss_board_section *section = &board->sections[c];
        section->first_ticks = to_grid(board->frame_begin, section->step) + board->captured.channels[c].gap * section->step;
        section->left = board->captured.channels[c].count;
        section->done = 0;
    }
    return 1;
}

/* Writes all samples up to a tick of the stretch; returns the length of the payload, 0 when they do not fit. Nothing is used up yet. */
static size_t write_until(ss_board *board, uint32_t ticks) {
    uint8_t *payload = ss_board_payload(board);
    size_t length = ss_link_begin_samples(board->frame_begin, ticks, 0, payload);
    for (uint8_t c = 0; c < board->format.channel_count && length > 0u; c++) {
        const ss_board_section *section = &board->sections[c];
        const uint32_t within = ss_board_within(section->first_ticks, ticks, section->step);
        const uint32_t count = within < section->left ? within : section->left;
        if (count > 0u) {
            const uint32_t place = (uint32_t)board->captured.channels[c].place + section->done;
            const uint32_t gap = section->first_ticks / section->step;
            length = ss_link_add_section(payload, length, c, section->bits, (uint8_t)gap, board->codes + place, board->status + place, count);
        }
    }
    return length;
}

/* The frame begins at a later tick: what it held is used up. */
static void move_on(ss_board *board, uint32_t ticks) {
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        ss_board_section *section = &board->sections[c];
        const uint32_t within = ss_board_within(section->first_ticks, ticks, section->step);
        const uint32_t count = within < section->left ? within : section->left;
        section->done = (uint16_t)(section->done + count);
        section->left = (uint16_t)(section->left - count);
        section->first_ticks += count * section->step;
        section->first_ticks = section->first_ticks > ticks ? section->first_ticks - ticks : 0u;
        board->samples_taken[c] += count;
    }
    board->frame_begin += ticks;
    board->taken_tick = board->frame_begin;
    board->captured.ticks -= ticks;
}

int ss_board_capture_next(ss_board *board) {
    if (board->captured.ticks == 0u && !fetch(board)) {
        return 0;
    }
    /* Half of the time, and half again, until it fits a frame: one tick of eight channels always does. */
    uint32_t ticks = board->captured.ticks;
    size_t length = write_until(board, ticks);
    while (length == 0u && ticks > 1u) {
        ticks /= 2u;
        length = write_until(board, ticks);
    }
    move_on(board, ticks);
    ss_board_send(board, SS_LINK_SAMPLES, length);
    return 1;
}
