/* SPDX-License-Identifier: MIT */
/*
 * The board's side of the link protocol (docs/link-protocol.md): bytes in, frames, samples to a detector, its answers out. C99, no allocation,
 * no floating point, nothing of a C library but memcpy and memset. All memory is in one ss_board.
 *
 * A frame is answered in full before the next one is read. Where the line is slower than the answers, reading stops, the host's credit
 * runs out, and it waits: no answer is ever thrown away for want of room on the line.
 */
#ifndef SS_BOARD_SESSION_H
#define SS_BOARD_SESSION_H

#include <stddef.h>
#include <stdint.h>

#include "board_detector.h"
#include "sensorsim_link.h"

/* Samples (of all channels together) that are unpacked at once: 6 bytes each. A frame with more of them is taken in several pieces. At least 8. */
#ifndef SS_BOARD_SAMPLES
#define SS_BOARD_SAMPLES 256
#endif

/* Stages whose time the session takes with the port's timer: figure 6. */
enum {
    SS_STAGE_DETECTOR, /* in the detector's take */
    SS_STAGE_LINK,     /* from bytes to frames, and unpacking */
    SS_STAGES,
};

/* What the board gives to the session. */
typedef struct {
    void *context;

    /* Takes bytes that were received; returns how many, 0 when there are none. Does not wait. */
    size_t (*read)(void *context, uint8_t *bytes, size_t most);

    /* Gives bytes to be sent; returns how many were taken. Does not wait. */
    size_t (*write)(void *context, const uint8_t *bytes, size_t count);

    /* Microseconds, wraps. */
    uint32_t (*clock_us)(void *context);

    /* The finest timer there is, counting up, wraps at 32 bits: figure 6 tells its ticks. NULL: figure 6 is not told. */
    uint32_t (*timer)(void *context);

    /* Bytes of stack there are, bytes used at most, bytes received that found no room. NULL: figures 1, 2 and 8 are not told. */
    void (*memory)(void *context, uint32_t *stack_bytes, uint32_t *stack_used, uint32_t *bytes_lost);

    /* Bytes that can wait to be read: the credit comes from it. At least 320. */
    uint32_t room_bytes;
} ss_board_port;

/* A stretch of time of the board's own sensor, for capture. */
typedef struct {
    int64_t begin_tick; /* the first stretch begins at 0 */
    uint32_t ticks;     /* at most a tenth of a second */
    struct {
        uint8_t count;  /* samples of the channel in that time */
        uint8_t gap;    /* samples that are missing before them */
        uint16_t place; /* of the first in the arrays of codes and status words */
    } channels[SS_LINK_MAX_CHANNELS];
} ss_board_captured;

/* A board's own sensor. */
typedef struct {
    void *context;

    /* The capture begins: fills the format (ss_link_set_channel). */
    void (*begin)(void *context, ss_link_format *format);

    /*
     * Fills codes and status words (each SS_BOARD_SAMPLES long) with the samples of the next stretch of time, once it is over.
     * Returns 0 when it is not yet. What a channel does not give in a stretch is missing.
     */
    int (*next)(void *context, int32_t *codes, uint16_t *status, ss_board_captured *captured);
} ss_board_source;

/* A channel's samples of a frame that is being taken or written. */
typedef struct {
    ss_link_section part;
    ss_link_codes cursor;
    uint32_t step;        /* ticks per sample of the channel; constant from the start on */
    uint32_t first_ticks; /* ticks from the frame's begin to the first sample that is left */
    uint16_t done;        /* samples gone through */
    uint16_t left;
    uint8_t bits; /* of a code of the channel */
} ss_board_section;

/* State of a session. Its fields are the session's own. */
typedef struct {
    const ss_board_port *port;
    const ss_board_detector *detector;
    void *detector_context;
    const ss_board_source *source;

    ss_link_reader reader;
    ss_link_writer writer;
    uint8_t in[32]; /* bytes read from the port, not yet looked at */
    uint8_t in_at;
    uint8_t in_count;

    uint8_t phase;
    uint8_t owed;  /* bits: what is to be answered yet */
    uint8_t doing; /* bits: what is being done */
    uint8_t accepted_type;
    uint8_t format_owed; /* number of the format frame that is to be sent next */
    uint8_t wants_progress;
    uint16_t trouble_code;
    uint32_t accepted_sequence;
    uint32_t trouble_sequence;
    const char *trouble_text;

    uint32_t session;
    uint32_t credit;         /* samples frames that can be held */
    uint32_t last_sequence;  /* of the last frame that was dealt with */
    uint32_t since_progress; /* samples frames since the last progress */
    uint32_t marks_sent;
    uint32_t answers_lost_told;
    int64_t begin_tick;
    int64_t taken_tick;
    ss_link_format format;

    int64_t frame_begin;
    uint32_t frame_ticks;
    uint32_t frame_done; /* ticks of the frame that have gone to the detector */
    ss_board_section sections[SS_LINK_MAX_CHANNELS];
    ss_board_piece piece;
    ss_board_captured captured;

    uint32_t frame_us; /* clock when the frame began to be taken */
    uint32_t longest_us;
    uint64_t stage_ticks[SS_STAGES]; /* of the port's timer */
    uint32_t samples_taken[SS_LINK_MAX_CHANNELS];

    const uint8_t *out; /* what is left of the frame that is being sent */
    size_t out_count;
    uint8_t wire[SS_LINK_WIRE_BUFFER];
    int32_t codes[SS_BOARD_SAMPLES];
    uint16_t status[SS_BOARD_SAMPLES];
} ss_board;

/* Begins: nothing is known, the board waits for `hello`. The source may be NULL: `capture` is refused then. */
void ss_board_begin(ss_board *board, const ss_board_port *port, const ss_board_detector *detector, void *detector_context, const ss_board_source *source);

/*
 * Does one step of work: sends, takes a piece of samples, reads. Call it again at once while it returns 1; after 0 there is nothing to do until
 * a byte has come or gone, or, while capturing, time has passed.
 */
int ss_board_step(ss_board *board);

#endif
