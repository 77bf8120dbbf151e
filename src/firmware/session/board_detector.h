/* SPDX-License-Identifier: MIT */
/*
 * What the session calls of a detector: a table of functions. The library's table is ss_library_detector (library_board.h); put your own
 * algorithm's in its place. No function may wait for anything, and none is called from an interrupt.
 */
#ifndef SS_BOARD_DETECTOR_H
#define SS_BOARD_DETECTOR_H

#include <stdint.h>

#include "sensorsim_link.h"

/* Consecutive samples of one channel. */
typedef struct {
    const int32_t *codes;   /* codes of the converter */
    const uint16_t *status; /* as many status words (docs/link-protocol.md, "Bits of a status word") */
    uint32_t count;         /* 0: there are none here */
    int64_t first;          /* index of the first; sample k stands at tick k x ticks per sample */
} ss_board_run;

/* New samples of all channels up to a tick. What is not here and stands before that tick is missing: a gap. */
typedef struct {
    int64_t until_tick;
    ss_board_run channels[SS_LINK_MAX_CHANNELS]; /* by place in the format */
} ss_board_piece;

typedef struct {
    /* Name and version, as the host shows it. */
    const char *name;

    /* Bytes of state, for the host to show. */
    uint32_t state_bytes;

    /* A new session: forget all, options as usual. */
    void (*begin)(void *context);

    /*
     * The items of one `setup` frame, 1 to 20. Returns whether the detector knows each of them and can take each value; if not, nothing of
     * them may have been taken.
     */
    int (*setup)(void *context, const ss_link_item *items, unsigned count);

    /* All is told. Returns NULL, or a sentence that says what of it does not fit together. NULL in place of the function: all fits. */
    const char *(*told)(void *context);

    /*
     * The format is complete and samples follow from the begin tick on. Returns NULL, or a sentence that says why the detector cannot work on
     * such a stream. The begin may be days after tick 0, where a board that was reset comes back into a long stream: nothing before it is a gap,
     * and whoever works through a stream slice by slice begins there.
     */
    const char *(*start)(void *context, const ss_link_format *format, int64_t begin_tick);

    /*
     * Takes samples up to the piece's tick, or fewer: returns the tick it has got to. The session fetches all answers after each call,
     * and calls again with the same piece until its tick is reached.
     */
    int64_t (*take)(void *context, const ss_board_piece *piece);

    /* No more samples follow: decides about what is held. */
    void (*flush)(void *context);

    /* The next answer, in the order in which they were decided. Returns 0 when there is none. */
    int (*answer)(void *context, ss_link_mark *mark);

    /* The next wish to change a setting of the sensor; returns 0 when there is none. NULL: the detector has no wishes. */
    int (*wish)(void *context, ss_link_setting *wish);

    /* A setting of the sensor has changed. NULL: not of interest. */
    void (*changed)(void *context, const ss_link_setting *setting);

    /* Answers that were lost for want of room since the start. NULL: none can be. */
    uint32_t (*lost)(void *context);
} ss_board_detector;

#endif
