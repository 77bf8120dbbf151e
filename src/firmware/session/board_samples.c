/* SPDX-License-Identifier: MIT */
/* Samples frames from the host: looked at as a whole first, then unpacked in pieces that fit the room there is. */
#include <string.h>

#include "board_parts.h"

void ss_board_samples_begin(ss_board *board, const ss_link_frame *frame) {
    ss_link_samples samples;
    const unsigned wrong = ss_link_read_samples(&board->format, frame->payload, frame->length, &samples);
    if (wrong != SS_LINK_NO_TROUBLE) {
        ss_board_owe_trouble(board, (uint16_t)wrong, frame->sequence, "samples that are not as the format says");
        return;
    }
    if (samples.begin_tick < board->taken_tick) {
        ss_board_owe_trouble(board, SS_LINK_SAMPLES_TOO_EARLY, frame->sequence, "samples begin before what is taken");
        return;
    }
    for (uint8_t c = 0; c < SS_LINK_MAX_CHANNELS; c++) {
        board->sections[c].left = 0;
    }
    ss_link_section part;
    while (ss_link_next_section(&board->format, &samples, &part)) {
        ss_board_section *section = &board->sections[part.channel];
        section->part = part;
        ss_link_begin_codes(&part, &section->cursor);
        section->first_ticks = (uint32_t)(part.first_index * section->step - samples.begin_tick);
        section->done = 0;
        section->left = part.count;
    }
    board->frame_begin = samples.begin_tick;
    board->frame_ticks = samples.ticks;
    board->frame_done = 0;
    board->wants_progress = samples.wants_progress;
    board->frame_us = board->port->clock_us(board->port->context);
    /* A frame without time and without samples is a mark of time: all before it is over. It goes to the detector like any other. */
    board->doing |= SS_DOING_FRAME | SS_DOING_FIRST;
}

/* Samples of a channel that stand before a tick of the frame. */
static uint32_t count_before(const ss_board_section *section, uint32_t ticks) {
    if (section->left == 0u) {
        return 0;
    }
    const uint32_t within = ss_board_within(section->first_ticks, ticks, section->step);
    return within < section->left ? within : section->left;
}

/* How far the next piece can reach: to the end of the frame when what is left fits, else by half, and half again. */
static uint32_t end_of_piece(const ss_board *board) {
    uint32_t left = 0;
    for (uint8_t c = 0; c < SS_LINK_MAX_CHANNELS; c++) {
        left += board->sections[c].left;
    }
    uint32_t end = board->frame_ticks;
    while (left > SS_BOARD_SAMPLES && end > board->frame_done + 1u) {
        end = board->frame_done + (end - board->frame_done) / 2u;
        left = 0;
        for (uint8_t c = 0; c < SS_LINK_MAX_CHANNELS; c++) {
            left += count_before(&board->sections[c], end);
        }
    }
    return end;
}

static void unpack(ss_board_section *section, uint32_t count, int32_t *codes, uint16_t *status) {
    for (uint32_t i = 0; i < count; i++) {
        codes[i] = ss_link_next_code(&section->cursor);
    }
    if (section->part.status_mode == 2u) {
        for (uint32_t i = 0; i < count; i++) {
            status[i] = ss_link_status(&section->part, section->done + i);
        }
    } else {
        const uint16_t word = ss_link_status(&section->part, 0);
        for (uint32_t i = 0; i < count; i++) {
            status[i] = word;
        }
    }
}

int ss_board_samples_next(ss_board *board) {
    if (board->frame_done == board->frame_ticks && (board->doing & SS_DOING_FIRST) == 0u) {
        board->taken_tick = board->frame_begin + board->frame_ticks;
        return 0;
    }
    const uint32_t begin = ss_board_timer(board);
    const uint32_t end = end_of_piece(board);
    uint32_t place = 0;
    for (uint8_t c = 0; c < SS_LINK_MAX_CHANNELS; c++) {
        ss_board_section *section = &board->sections[c];
        ss_board_run *run = &board->piece.channels[c];
        const uint32_t count = end == board->frame_ticks ? section->left : count_before(section, end);
        run->count = count;
        if (count > 0u) {
            unpack(section, count, &board->codes[place], &board->status[place]);
            run->codes = &board->codes[place];
            run->status = &board->status[place];
            run->first = section->part.first_index + section->done;
            section->done = (uint16_t)(section->done + count);
            section->left = (uint16_t)(section->left - count);
            section->first_ticks += count * section->step;
            board->samples_taken[c] += count;
            place += count;
        }
    }
    board->piece.until_tick = board->frame_begin + end;
    board->frame_done = end;
    board->doing = (uint8_t)((board->doing | SS_DOING_PIECE) & ~SS_DOING_FIRST);
    board->stage_ticks[SS_STAGE_LINK] += ss_board_timer(board) - begin;
    return 1;
}
