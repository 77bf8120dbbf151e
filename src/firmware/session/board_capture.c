/* SPDX-License-Identifier: MIT */
/* Samples of the board's own sensor on their way to the host. */
#include <string.h>

#include "board_parts.h"

void ss_board_capture_begin(ss_board *board) {
    memset(&board->format, 0, sizeof board->format);
    board->source->begin(board->source->context, &board->format);
    board->captured.ticks = 0;
    board->phase = SS_PHASE_CAPTURING;
}

/* Fetches the next stretch and lays it out by channel. */
static int fetch(ss_board *board) {
    memset(&board->captured, 0, sizeof board->captured);
    if (!board->source->next(board->source->context, board->codes, board->status, &board->captured)) {
        board->captured.ticks = 0;
        return 0;
    }
    board->frame_begin = board->captured.begin_tick;
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        const uint32_t step = board->format.channels[c].ticks_per_sample;
        const uint32_t past = (uint32_t)(board->captured.begin_tick % step);
        ss_board_section *section = &board->sections[c];
        section->grid_ticks = past > 0u ? step - past : 0u;
        section->first_ticks = section->grid_ticks + board->captured.channels[c].gap * step;
        section->count = board->captured.channels[c].count;
        section->done = 0;
    }
    return 1;
}

static uint32_t within(const ss_board *board, uint8_t channel, uint32_t ticks) {
    const ss_board_section *section = &board->sections[channel];
    const uint32_t step = board->format.channels[channel].ticks_per_sample;
    const uint32_t count = ss_board_within(section->first_ticks, ticks, step);
    return count < section->count ? count : section->count;
}

/* The section of a channel as it would be up to a tick of the stretch. */
static ss_link_section section_until(const ss_board *board, uint8_t channel, uint32_t ticks) {
    const ss_board_section *section = &board->sections[channel];
    const uint32_t step = board->format.channels[channel].ticks_per_sample;
    const uint16_t *status = board->status + board->captured.channels[channel].place + section->done;
    ss_link_section part = {0};
    part.channel = channel;
    part.count = (uint8_t)within(board, channel, ticks);
    part.gap = (uint8_t)((section->first_ticks - section->grid_ticks) / step);
    for (uint8_t i = 0; i < part.count; i++) {
        if (status[i] != status[0]) {
            part.status_mode = 2;
            return part;
        }
    }
    part.status_mode = part.count > 0u && status[0] != 0u ? 1u : 0u;
    return part;
}

static uint32_t bytes_until(const ss_board *board, uint32_t ticks) {
    uint32_t bytes = SS_LINK_SAMPLES_HEAD;
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        const ss_link_section part = section_until(board, c, ticks);
        bytes += part.count == 0u ? 0u : ss_link_section_bytes(&part, board->format.channels[c].bits);
    }
    return bytes;
}

int ss_board_capture_next(ss_board *board) {
    if (board->captured.ticks == 0u && !fetch(board)) {
        return 0;
    }
    /* Half of the time, and half again, until it fits a frame; as a sender must. */
    uint32_t ticks = board->captured.ticks;
    while (bytes_until(board, ticks) > SS_LINK_PAYLOAD_MOST && ticks > 1u) {
        ticks /= 2u;
    }
    uint8_t *payload = ss_board_payload(board);
    uint32_t used = SS_LINK_SAMPLES_HEAD;
    ss_link_samples samples = {.begin_tick = board->frame_begin, .ticks = ticks};
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        const ss_link_section part = section_until(board, c, ticks);
        ss_board_section *section = &board->sections[c];
        const uint32_t step = board->format.channels[c].ticks_per_sample;
        if (part.count > 0u) {
            const uint32_t place = (uint32_t)board->captured.channels[c].place + section->done;
            used += ss_link_write_section(payload + used, &part, board->format.channels[c].bits, board->codes + place, board->status + place);
            samples.sections++;
            board->samples_taken[c] += part.count;
            section->done = (uint16_t)(section->done + part.count);
            section->count = (uint16_t)(section->count - part.count);
            section->first_ticks += part.count * step;
        }
        /* From here on places count from the end of this frame; what is still missing goes on as a gap of the next. */
        while (section->grid_ticks < ticks) {
            section->grid_ticks += step;
        }
        section->grid_ticks -= ticks;
        section->first_ticks = section->first_ticks > ticks ? section->first_ticks - ticks : section->grid_ticks;
        section->first_ticks = section->first_ticks < section->grid_ticks ? section->grid_ticks : section->first_ticks;
    }
    (void)ss_link_write_samples(payload, &samples);
    board->frame_begin += ticks;
    board->captured.ticks -= ticks;
    board->taken_tick = board->frame_begin;
    ss_board_send(board, SS_LINK_SAMPLES, used);
    return 1;
}
