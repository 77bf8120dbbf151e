/* SPDX-License-Identifier: MIT */
/* What the files of the session share with one another; not for callers. */
#ifndef SS_BOARD_PARTS_H
#define SS_BOARD_PARTS_H

#include "board_session.h"

/* Where a session stands. */
enum {
    SS_PHASE_NONE,      /* no hello yet */
    SS_PHASE_GREETED,   /* hello, perhaps a format and a setup */
    SS_PHASE_STARTED,   /* samples may come */
    SS_PHASE_STOPPED,   /* the last answer has been given */
    SS_PHASE_CAPTURING, /* the board's own samples go out */
};

/* What is to be answered yet; lower bits go first. */
enum {
    SS_OWED_ABOUT = 1,
    SS_OWED_TROUBLE = 2,
    SS_OWED_ACCEPTED = 4,
    SS_OWED_FORMAT = 8,
    SS_OWED_FIGURES = 16,
    SS_OWED_STOPPED = 32,
    SS_OWED_PROGRESS = 64,
};

/* What is being done. */
enum {
    SS_DOING_FRAME = 1,   /* a samples frame is being taken */
    SS_DOING_PIECE = 2,   /* a piece of it is with the detector */
    SS_DOING_FLUSH = 4,   /* the detector has decided about what it held */
    SS_DOING_ANSWERS = 8, /* answers are being fetched */
    SS_DOING_FIRST = 16,  /* nothing of the frame has gone to the detector */
};

/* Samples of a channel that stand before a number of ticks, by where its first one stands; the step is its ticks per sample. */
static inline uint32_t ss_board_within(uint32_t first_ticks, uint32_t ticks, uint32_t step) {
    return first_ticks >= ticks ? 0u : (ticks - first_ticks + step - 1u) / step;
}

/* The port's timer; 0 when it has none. */
uint32_t ss_board_timer(const ss_board *board);

/* Takes steps and bits of all channels from the format, once. */
void ss_board_learn_steps(ss_board *board);

/* A trouble is owed, about the frame with this number. The text is a constant. */
void ss_board_owe_trouble(ss_board *board, uint16_t code, uint32_t sequence, const char *text);

/* Fills the wire with the frame of the payload that stands in it. */
void ss_board_send(ss_board *board, uint8_t type, size_t length);

/* Place of the payload in the wire, for frames that are built there. */
uint8_t *ss_board_payload(ss_board *board);

/* Fills the wire with one of the frames that are owed. */
void ss_board_send_owed(ss_board *board);

/* Fills the wire with answers of the detector; returns 0 when there are none. */
int ss_board_send_answers(ss_board *board);

/* Looks at a samples frame as a whole; when it is sound it becomes the frame that is being taken. */
void ss_board_samples_begin(ss_board *board, const ss_link_frame *frame);

/* Unpacks the next piece; returns 0 when the frame is at its end. */
int ss_board_samples_next(ss_board *board);

/* Begins to capture. */
void ss_board_capture_begin(ss_board *board);

/* Fills the wire with samples of the board's own, when there are any; returns 0 if not. */
int ss_board_capture_next(ss_board *board);

#endif
