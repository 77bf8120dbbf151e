/* SPDX-License-Identifier: MIT */
#include "board_session.h"

#include <string.h>

#include "board_parts.h"

enum { ROOM_FOR_SHORT_FRAMES = 64 };

/* Frames that the board can hold: those that wait in the port's room beside some short ones, and the one that is being taken. */
static uint32_t credit_of(uint32_t room_bytes) {
    const uint32_t room = room_bytes > ROOM_FOR_SHORT_FRAMES ? room_bytes - ROOM_FOR_SHORT_FRAMES : 0u;
    return 1u + room / SS_LINK_WIRE_BUFFER;
}

void ss_board_begin(ss_board *board, const ss_board_port *port, const ss_board_detector *detector, void *detector_context, const ss_board_source *source) {
    memset(board, 0, sizeof *board);
    board->port = port;
    board->detector = detector;
    board->detector_context = detector_context;
    board->source = source;
    board->credit = credit_of(port->room_bytes);
}

/* All counts begin with the session's first hello, which is the first frame accepted. */
static void begin_session(ss_board *board, uint32_t session) {
    board->session = session;
    board->phase = SS_PHASE_GREETED;
    board->owed = 0;
    board->doing = 0;
    board->writer.next_sequence = 0;
    board->reader.good = 1;
    board->reader.damaged = 0;
    board->reader.missing = 0;
    board->reader.repeated = 0;
    board->since_progress = 0;
    board->marks_sent = 0;
    board->answers_lost_told = 0;
    board->longest_us = 0;
    memset(&board->format, 0, sizeof board->format);
    memset(board->stage_ticks, 0, sizeof board->stage_ticks);
    memset(board->samples_taken, 0, sizeof board->samples_taken);
    board->detector->begin(board->detector_context);
}

static void refuse(ss_board *board, const ss_link_frame *frame, uint16_t code, const char *text) {
    ss_board_owe_trouble(board, code, frame->sequence, text);
}

static void on_hello(ss_board *board, const ss_link_frame *frame) {
    ss_link_hello hello;
    if (!ss_link_read_hello(frame->payload, frame->length, &hello)) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "hello is too short");
        return;
    }
    if (hello.oldest_version > SS_LINK_VERSION || hello.newest_version < SS_LINK_VERSION) {
        refuse(board, frame, SS_LINK_WRONG_VERSION, "this board speaks version 1");
        return;
    }
    /* A repeated one changes nothing that has begun. */
    if (board->phase == SS_PHASE_NONE || board->session != hello.session) {
        begin_session(board, hello.session);
    }
    board->owed |= SS_OWED_ABOUT;
}

static void owe_accepted(ss_board *board, const ss_link_frame *frame) {
    board->accepted_type = frame->type;
    board->accepted_sequence = frame->sequence;
    board->owed |= SS_OWED_ACCEPTED;
}

static void on_format(ss_board *board, const ss_link_frame *frame) {
    /* Also when samples have begun: what was told is then complete, so only the same bytes are taken, and change nothing. */
    if (!ss_link_read_format(frame->payload, frame->length, &board->format)) {
        refuse(board, frame, SS_LINK_FORMAT_REFUSED, "the format has another length, or contradicts itself or what was told before");
        return;
    }
    owe_accepted(board, frame);
}

static void on_setup(ss_board *board, const ss_link_frame *frame) {
    unsigned count = 0;
    if (!ss_link_read_items(frame->length, &count)) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "setup is not made of items of 12 bytes");
        return;
    }
    ss_link_item items[SS_LINK_MAX_ITEMS];
    for (unsigned i = 0; i < count; i++) {
        ss_link_get_item(frame->payload, i, &items[i]);
    }
    /* A repeated one changes nothing that has begun. */
    if (board->phase == SS_PHASE_GREETED && !board->detector->setup(board->detector_context, items, count)) {
        refuse(board, frame, SS_LINK_SETUP_REFUSED, "the detector does not know an item, or not with this value");
        return;
    }
    owe_accepted(board, frame);
}

void ss_board_learn_steps(ss_board *board) {
    for (uint8_t c = 0; c < board->format.channel_count; c++) {
        ss_link_channel channel;
        ss_link_get_channel(&board->format, c, &channel);
        board->sections[c].step = channel.ticks_per_sample;
        board->sections[c].bits = channel.bits;
    }
}

static void on_start(ss_board *board, const ss_link_frame *frame) {
    int64_t begin_tick;
    if (!ss_link_read_tick(frame->payload, frame->length, &begin_tick)) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "start has no begin tick");
        return;
    }
    if (board->phase == SS_PHASE_GREETED) {
        if (!ss_link_format_is_complete(&board->format)) {
            refuse(board, frame, SS_LINK_FORMAT_REFUSED, "the channels are not all told yet");
            return;
        }
        const char *unfit = board->detector->told != NULL ? board->detector->told(board->detector_context) : NULL;
        if (unfit != NULL) {
            refuse(board, frame, SS_LINK_SETUP_REFUSED, unfit);
            return;
        }
        const char *refused = board->detector->start(board->detector_context, &board->format, begin_tick);
        if (refused != NULL) {
            refuse(board, frame, SS_LINK_FORMAT_REFUSED, refused);
            return;
        }
        ss_board_learn_steps(board);
        board->begin_tick = begin_tick;
        board->taken_tick = begin_tick;
        board->phase = SS_PHASE_STARTED;
    } else if (board->phase == SS_PHASE_CAPTURING || board->begin_tick != begin_tick) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "the session has begun otherwise; say hello with a new number");
        return;
    }
    owe_accepted(board, frame);
}

static void on_stop(ss_board *board, const ss_link_frame *frame) {
    int64_t end_tick;
    if (!ss_link_read_tick(frame->payload, frame->length, &end_tick)) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "stop has no end tick");
        return;
    }
    if (board->phase == SS_PHASE_STARTED) {
        /* What has not come by the end is a gap. */
        board->taken_tick = end_tick > board->taken_tick ? end_tick : board->taken_tick;
        board->piece.until_tick = board->taken_tick;
        memset(board->piece.channels, 0, sizeof board->piece.channels);
        board->doing = SS_DOING_PIECE | SS_DOING_FLUSH;
    }
    board->phase = SS_PHASE_STOPPED;
    board->owed |= SS_OWED_FIGURES | SS_OWED_STOPPED;
}

static void on_capture(ss_board *board, const ss_link_frame *frame) {
    if (!ss_link_read_capture(frame->payload, frame->length)) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "capture has another length");
        return;
    }
    if (board->source == NULL) {
        refuse(board, frame, SS_LINK_UNKNOWN_TYPE, "this board has no sensor of its own");
        return;
    }
    if (board->phase == SS_PHASE_GREETED) {
        ss_board_capture_begin(board);
    } else if (board->phase != SS_PHASE_CAPTURING) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "the session has begun otherwise; say hello with a new number");
        return;
    }
    owe_accepted(board, frame);
    board->format_owed = 0;
    board->owed |= SS_OWED_FORMAT;
}

static void on_setting(ss_board *board, const ss_link_frame *frame) {
    ss_link_setting setting;
    if (!ss_link_read_setting(frame->payload, frame->length, &setting)) {
        refuse(board, frame, SS_LINK_WRONG_CONTENT, "setting is no setting");
        return;
    }
    if (board->detector->changed != NULL) {
        board->detector->changed(board->detector_context, &setting);
    }
}

static void on_frame(ss_board *board, const ss_link_frame *frame) {
    board->last_sequence = frame->sequence;
    if (frame->type == SS_LINK_HELLO) {
        on_hello(board, frame);
        return;
    }
    const int is_running = board->phase == SS_PHASE_STARTED || board->phase == SS_PHASE_STOPPED || board->phase == SS_PHASE_CAPTURING;
    /* A host that goes on with a session learns here that this board has none, as after a reset. */
    if (board->phase == SS_PHASE_NONE
        || (!is_running && (frame->type == SS_LINK_SAMPLES || frame->type == SS_LINK_STOP || frame->type == SS_LINK_SETTING))) {
        refuse(board, frame, SS_LINK_NOT_STARTED, board->phase == SS_PHASE_NONE ? "no hello yet" : "no start yet");
        return;
    }
    switch (frame->type) {
    case SS_LINK_FORMAT:
        on_format(board, frame);
        break;
    case SS_LINK_SETUP:
        on_setup(board, frame);
        break;
    case SS_LINK_START:
        on_start(board, frame);
        break;
    case SS_LINK_STOP:
        on_stop(board, frame);
        break;
    case SS_LINK_ASK:
        board->owed |= SS_OWED_PROGRESS;
        break;
    case SS_LINK_CAPTURE:
        on_capture(board, frame);
        break;
    case SS_LINK_SAMPLES:
        if (board->phase == SS_PHASE_STARTED) {
            ss_board_samples_begin(board, frame);
        } else {
            refuse(board, frame, SS_LINK_NOT_STARTED, "the session takes no samples any more");
        }
        break;
    case SS_LINK_SETTING:
        on_setting(board, frame);
        break;
    default:
        refuse(board, frame, SS_LINK_UNKNOWN_TYPE, "unknown type");
        break;
    }
}

uint32_t ss_board_timer(const ss_board *board) {
    return board->port->timer != NULL ? board->port->timer(board->port->context) : 0u;
}

/* Reads up to the end of the next frame and looks at it; returns 0 when there are no bytes. */
static int read_some(ss_board *board) {
    if (board->in_at == board->in_count) {
        board->in_at = 0;
        board->in_count = (uint8_t)board->port->read(board->port->context, board->in, sizeof board->in);
        if (board->in_count == 0u) {
            return 0;
        }
    }
    const uint32_t begin = ss_board_timer(board);
    const uint32_t other_version = board->reader.other_version;
    ss_link_frame frame;
    int is_frame = 0;
    const size_t used = ss_link_read(&board->reader, board->in + board->in_at, (size_t)(board->in_count - board->in_at), &frame, &is_frame);
    board->in_at = (uint8_t)(board->in_at + used);
    board->stage_ticks[SS_STAGE_LINK] += ss_board_timer(board) - begin;
    if (is_frame) {
        on_frame(board, &frame);
    } else if (board->reader.other_version != other_version) {
        ss_board_owe_trouble(board, SS_LINK_WRONG_VERSION, board->reader.other_version_sequence, "this board speaks version 1");
    }
    return 1;
}

/* Gives the rest of the outgoing frame to the port; returns 0 when the port takes nothing. */
static int push(ss_board *board) {
    const size_t taken = board->port->write(board->port->context, board->out, board->out_count);
    board->out += taken;
    board->out_count -= taken;
    return taken > 0u;
}

/* The detector takes from the piece, up to its next answers. */
static void work(ss_board *board) {
    const uint32_t begin = ss_board_timer(board);
    const int64_t now = board->detector->take(board->detector_context, &board->piece);
    if (now >= board->piece.until_tick) {
        board->doing &= (uint8_t)~SS_DOING_PIECE;
    }
    board->stage_ticks[SS_STAGE_DETECTOR] += ss_board_timer(board) - begin;
    board->doing |= SS_DOING_ANSWERS;
}

static void end_of_frame(ss_board *board) {
    board->doing &= (uint8_t)~SS_DOING_FRAME;
    const uint32_t took_us = board->port->clock_us(board->port->context) - board->frame_us;
    board->longest_us = took_us > board->longest_us ? took_us : board->longest_us;
    board->since_progress++;
    /* Half of the credit, rounded up: with one frame of credit each is told. */
    if (board->wants_progress || board->since_progress * 2u >= board->credit) {
        board->owed |= SS_OWED_PROGRESS;
    }
}

static void tell_of_lost_answers(ss_board *board) {
    if (board->detector->lost != NULL) {
        const uint32_t lost = board->detector->lost(board->detector_context);
        if (lost != board->answers_lost_told) {
            board->answers_lost_told = lost;
            ss_board_owe_trouble(board, SS_LINK_ANSWERS_LOST, board->last_sequence, "the detector gave more answers than it has room for");
        }
    }
}

int ss_board_step(ss_board *board) {
    if (board->out_count > 0u) {
        return push(board);
    }
    if ((board->doing & SS_DOING_ANSWERS) != 0u) {
        if (!ss_board_send_answers(board)) {
            board->doing &= (uint8_t)~SS_DOING_ANSWERS;
            tell_of_lost_answers(board);
        }
        return 1;
    }
    if ((board->doing & SS_DOING_PIECE) != 0u) {
        work(board);
        return 1;
    }
    if ((board->doing & SS_DOING_FRAME) != 0u) {
        if (!ss_board_samples_next(board)) {
            end_of_frame(board);
        }
        return 1;
    }
    if ((board->doing & SS_DOING_FLUSH) != 0u) {
        board->doing = SS_DOING_ANSWERS;
        board->detector->flush(board->detector_context);
        return 1;
    }
    if (board->owed != 0u) {
        ss_board_send_owed(board);
        return 1;
    }
    if (read_some(board)) {
        return 1;
    }
    return board->phase == SS_PHASE_CAPTURING && ss_board_capture_next(board);
}
