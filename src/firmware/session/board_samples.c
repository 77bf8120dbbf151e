/* SPDX-License-Identifier: MIT */
/* Samples frames from the host: looked at as a whole first, then unpacked in pieces that fit the room there is. */
#include <string.h>

#include "board_parts.h"

/* Where each channel's samples stand from a tick on. Only after a gap: in a stream without one the places are carried on from frame to frame. */
static void find_places(ss_board *board, uint64_t tick) {
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        const uint32_t step = board->format.channels[c].ticks_per_sample;
        const uint64_t index = tick / step;
        const uint32_t past = (uint32_t)(tick - index * step);
        board->sections[c].grid_index = (int64_t)index + (past > 0u);
        board->sections[c].grid_ticks = past > 0u ? step - past : 0u;
    }
    board->grid_tick = tick;
    board->grid_is_known = 1;
}

/* The places move on by a number of ticks. */
static void move_places(ss_board *board, uint32_t ticks) {
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        ss_board_section *section = &board->sections[c];
        const uint32_t step = board->format.channels[c].ticks_per_sample;
        const uint32_t count = ss_board_within(section->grid_ticks, ticks, step);
        section->grid_index += count;
        section->grid_ticks += count * step - ticks;
    }
    board->grid_tick += ticks;
}

/* Looks at all sections; returns NULL when all is sound, else what is wrong. */
static const char *look_at_sections(ss_board *board, const ss_link_frame *frame, const ss_link_samples *samples, uint16_t *code) {
    uint32_t at = SS_LINK_SAMPLES_HEAD;
    int before = -1;
    *code = SS_LINK_TROUBLE_CONTENT;
    for (uint8_t i = 0; i < samples->sections; i++) {
        ss_link_section part;
        const uint32_t next = ss_link_read_section(frame, at, &board->format, &part);
        if (next == 0u) {
            *code = at + 1u <= frame->length && frame->payload[at] >= board->format.channel_count ? SS_LINK_TROUBLE_CHANNEL : SS_LINK_TROUBLE_CONTENT;
            return "a section of samples is not as the format says";
        }
        at = next;
        const ss_link_channel *channel = &board->format.channels[part.channel];
        ss_board_section *section = &board->sections[part.channel];
        if ((int)part.channel <= before || part.gap + (uint32_t)part.count > ss_board_within(section->grid_ticks, samples->ticks, channel->ticks_per_sample)) {
            return "samples that do not belong to the frame's time, or channels that do not ascend";
        }
        before = (int)part.channel;
        section->bits = part.codes;
        section->status = part.status;
        section->status_mode = part.status_mode;
        section->count = part.count;
        section->first_index = section->grid_index + part.gap;
        section->first_ticks = section->grid_ticks + part.gap * channel->ticks_per_sample;
    }
    return at == frame->length ? NULL : "bytes follow the last section of samples";
}

void ss_board_samples_begin(ss_board *board, const ss_link_frame *frame) {
    ss_link_samples samples;
    if (!ss_link_read_samples(frame, &samples)) {
        ss_board_owe_trouble(board, SS_LINK_TROUBLE_CONTENT, frame->sequence, "samples without their head");
        return;
    }
    if (samples.begin_tick < board->taken_tick) {
        ss_board_owe_trouble(board, SS_LINK_TROUBLE_EARLY, frame->sequence, "samples begin before what is taken");
        return;
    }
    if (samples.begin_tick > (uint64_t)INT64_MAX / 2u || samples.ticks > (board->format.ticks_per_second + 9u) / 10u) {
        ss_board_owe_trouble(board, SS_LINK_TROUBLE_CONTENT, frame->sequence, "samples of more than a tenth of a second, or beyond all time");
        return;
    }
    if (!board->grid_is_known || board->grid_tick != samples.begin_tick) {
        find_places(board, samples.begin_tick);
    }
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        board->sections[c].count = 0;
        board->sections[c].done = 0;
    }
    uint16_t code;
    const char *wrong = look_at_sections(board, frame, &samples, &code);
    if (wrong != NULL) {
        ss_board_owe_trouble(board, code, frame->sequence, wrong);
        return;
    }
    board->frame_begin = samples.begin_tick;
    board->frame_ticks = samples.ticks;
    board->frame_flags = samples.flags;
    board->frame_us = board->port->clock_us(board->port->context);
    board->piece.until_tick = -1;
    board->doing |= SS_DOING_FRAME;
}

/* Samples that stand before a tick of the frame. */
static uint32_t count_before(const ss_board *board, uint32_t ticks, uint32_t most) {
    uint32_t count = 0;
    for (uint8_t c = 0; c < board->format.channel_count && count <= most; c++) {
        const ss_board_section *section = &board->sections[c];
        const uint32_t within = section->count == 0u ? 0u : ss_board_within(section->first_ticks, ticks, board->format.channels[c].ticks_per_sample);
        count += within < section->count ? within : section->count;
    }
    return count;
}

/* How far the next piece can reach: to the end of the frame when what is left fits, else by half, and half again. */
static uint32_t end_of_piece(const ss_board *board, uint32_t from) {
    uint32_t all = 0;
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        all += board->sections[c].count;
    }
    uint32_t end = board->frame_ticks;
    if (all > SS_BOARD_SAMPLES) {
        while (count_before(board, end, SS_BOARD_SAMPLES) > SS_BOARD_SAMPLES && end > from + 1u) {
            end = from + (end - from) / 2u;
        }
    }
    return end;
}

static void unpack(ss_board *board, uint8_t channel, uint32_t count, uint32_t place) {
    ss_board_section *section = &board->sections[channel];
    const ss_link_channel *format = &board->format.channels[channel];
    ss_link_unpack(section->bits, (uint32_t)section->done * format->bits, format->bits, format->flags & 1u, count, &board->codes[place]);
    uint16_t *status = &board->status[place];
    if (section->status_mode == 2u) {
        for (uint32_t i = 0; i < count; i++) {
            status[i] = ss_link_get16(section->status + 2u * (section->done + i));
        }
    } else {
        const uint16_t word = section->status_mode == 1u ? ss_link_get16(section->status) : (uint16_t)0;
        for (uint32_t i = 0; i < count; i++) {
            status[i] = word;
        }
    }
    ss_board_run *run = &board->piece.channels[channel];
    run->codes = &board->codes[place];
    run->status = status;
    run->count = count;
    run->first = section->first_index;
    section->first_index += count;
    section->first_ticks += count * format->ticks_per_sample;
    section->done = (uint16_t)(section->done + count);
    section->count = (uint16_t)(section->count - count);
    board->samples_taken[channel] += count;
}

int ss_board_samples_next(ss_board *board) {
    const uint64_t end_tick = board->frame_begin + board->frame_ticks;
    if (board->piece.until_tick == (int64_t)end_tick) {
        if (board->frame_ticks > 0u) {
            move_places(board, board->frame_ticks);
        }
        board->taken_tick = end_tick;
        return 0;
    }
    const uint32_t begin = ss_board_timer(board);
    const uint32_t from = board->piece.until_tick < 0 ? 0u : (uint32_t)((uint64_t)board->piece.until_tick - board->frame_begin);
    const uint32_t end = end_of_piece(board, from);
    uint32_t place = 0;
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        const ss_board_section *section = &board->sections[c];
        board->piece.channels[c].count = 0;
        if (section->count > 0u) {
            uint32_t count = section->count;
            if (end < board->frame_ticks) {
                const uint32_t within = ss_board_within(section->first_ticks, end, board->format.channels[c].ticks_per_sample);
                count = within < count ? within : count;
            }
            if (count > 0u) {
                unpack(board, c, count, place);
                place += count;
            }
        }
    }
    board->piece.until_tick = (int64_t)(board->frame_begin + end);
    board->doing |= SS_DOING_PIECE;
    board->stage_ticks[SS_STAGE_LINK] += ss_board_timer(board) - begin;
    return 1;
}
