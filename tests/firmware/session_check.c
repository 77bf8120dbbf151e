/* SPDX-License-Identifier: MIT */
/*
 * Checks of a board's session (src/firmware/session) in one process: this file plays host, line and detector. Everything that is sent is
 * made from a seed, so that a failure can be made again: session_check SEED ROUNDS. Prints one line; any difference ends it with code 1.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board_session.h"

#define EXPECT(condition)                                                                                  \
    do {                                                                                                   \
        if (!(condition)) {                                                                                \
            fprintf(stderr, "%s:%d: not so: %s (seed %u)\n", __FILE__, __LINE__, #condition, check_seed); \
            exit(1);                                                                                       \
        }                                                                                                  \
    } while (0)

enum { LINE_BYTES = 1 << 20, MOST_SEEN = 1 << 16 };

static unsigned check_seed;
static uint64_t random_state;

static uint32_t random_below(uint32_t most) {
    random_state = random_state * 6364136223846793005u + 1442695040888963407u;
    return (uint32_t)(random_state >> 33) % most;
}

/* ---- The line ---- */

typedef struct {
    uint8_t bytes[LINE_BYTES];
    size_t put;
    size_t got;
} line;

static line to_board;
static line to_host;
static int line_is_choppy;
static uint32_t now_us;

static size_t read_line(void *context, uint8_t *bytes, size_t most) {
    (void)context;
    size_t count = to_board.put - to_board.got;
    count = count < most ? count : most;
    if (line_is_choppy && count > 1) {
        count = 1 + random_below((uint32_t)count);
    }
    memcpy(bytes, to_board.bytes + to_board.got, count);
    to_board.got += count;
    return count;
}

static size_t write_line(void *context, const uint8_t *bytes, size_t count) {
    (void)context;
    if (line_is_choppy) {
        count = random_below(3) == 0 ? 0 : 1 + random_below((uint32_t)count);
    }
    EXPECT(to_host.put + count <= LINE_BYTES);
    memcpy(to_host.bytes + to_host.put, bytes, count);
    to_host.put += count;
    return count;
}

static uint32_t clock_us(void *context) {
    (void)context;
    return now_us++;
}

static const ss_board_port port = {NULL, read_line, write_line, clock_us, NULL, NULL, 1024};

/* ---- The detector: keeps what it gets, answers with marks that can be foretold ---- */

typedef struct {
    int64_t index;
    int32_t code;
    uint16_t status;
    uint8_t channel;
} seen_sample;

static seen_sample seen[MOST_SEEN];
static size_t seen_count;
static int64_t detector_tick;
static int detector_begins;
static uint32_t steps[SS_LINK_MAX_CHANNELS];
static unsigned marks_waiting;
static uint32_t marks_given;
static int is_flushed;

static void begin(void *context) {
    (void)context;
    detector_begins++;
    seen_count = 0;
    detector_tick = 0;
    marks_given = 0;
    is_flushed = 0;
}

static unsigned items_taken;

static int setup(void *context, const ss_link_item *items, unsigned count) {
    (void)context;
    for (unsigned i = 0; i < count; i++) {
        if (items[i].item != 0x8001 || items[i].value != -5) {
            return 0;
        }
    }
    items_taken += count;
    return 1;
}

static const char *unfit;

static const char *told(void *context) {
    (void)context;
    return unfit;
}

static const char *start(void *context, const ss_link_format *format, int64_t begin_tick) {
    (void)context;
    ss_link_channel channel;
    detector_tick = begin_tick;
    for (unsigned c = 0; c < format->channel_count; c++) {
        ss_link_get_channel(format, c, &channel);
        steps[c] = channel.ticks_per_sample;
    }
    return format->channel_count == 1 && channel.bits == 5 ? "five bits are too few" : NULL;
}

/* Goes to the end at once, or to the middle first; marks in proportion to what came. */
static int64_t take(void *context, const ss_board_piece *piece) {
    (void)context;
    EXPECT(piece->until_tick >= detector_tick);
    if (piece->until_tick - detector_tick > 3 && random_below(2) == 0) {
        detector_tick += 1;
        return detector_tick;
    }
    uint32_t all = 0;
    for (uint8_t c = 0; c < SS_LINK_MAX_CHANNELS; c++) {
        const ss_board_run *run = &piece->channels[c];
        all += run->count;
        for (uint32_t i = 0; i < run->count; i++) {
            EXPECT((run->first + i) * steps[c] < piece->until_tick);
            EXPECT(seen_count < MOST_SEEN);
            seen[seen_count].index = run->first + i;
            seen[seen_count].code = run->codes[i];
            seen[seen_count].status = run->status[i];
            seen[seen_count].channel = c;
            seen_count++;
        }
    }
    EXPECT(all <= SS_BOARD_SAMPLES);
    marks_waiting = all % 17;
    detector_tick = piece->until_tick;
    return detector_tick;
}

static void flush(void *context) {
    (void)context;
    is_flushed++;
    marks_waiting = 7;
}

static int answer(void *context, ss_link_mark *mark) {
    (void)context;
    if (marks_waiting == 0) {
        return 0;
    }
    marks_waiting--;
    memset(mark, 0, sizeof *mark);
    mark->paired_channel = SS_LINK_NOT_PAIRED;
    mark->sample = marks_given++;
    return 1;
}

static const ss_board_detector detector = {"check 1", 4242, begin, setup, told, start, take, flush, answer, NULL, NULL, NULL};

/* ---- The host ---- */

static ss_board board;
static ss_link_writer host_writer;
static ss_link_reader host_reader;
static ss_link_format host_format;
static uint8_t wire[SS_LINK_WIRE_BUFFER];
static uint32_t host_marks;
static uint32_t last_sent;

static void send(uint8_t type, size_t length) {
    size_t count;
    last_sent = host_writer.next_sequence;
    const uint8_t *bytes = ss_link_seal(&host_writer, type, length, wire, &count);
    EXPECT(to_board.put + count <= LINE_BYTES);
    memcpy(to_board.bytes + to_board.put, bytes, count);
    to_board.put += count;
}

static void run(void) {
    int idle = 0;
    while (idle < 64) {
        idle = ss_board_step(&board) ? 0 : idle + 1;
    }
}

/* The next frame from the board; 0: there is none. */
static int receive(ss_link_frame *frame) {
    int is_frame = 0;
    to_host.got += ss_link_read(&host_reader, to_host.bytes + to_host.got, to_host.put - to_host.got, frame, &is_frame);
    return is_frame;
}

/* The next frame that is no mark; marks are looked at and counted. */
static uint8_t next_type(ss_link_frame *frame) {
    while (receive(frame)) {
        if (frame->type != SS_LINK_MARKS) {
            return frame->type;
        }
        unsigned count = 0;
        EXPECT(ss_link_read_marks(frame->payload, frame->length, SS_LINK_MAX_CHANNELS, &count));
        for (unsigned i = 0; i < count; i++) {
            ss_link_mark mark;
            ss_link_get_mark(frame->payload, i, &mark);
            EXPECT(mark.sample == host_marks);
            host_marks++;
        }
    }
    return 0;
}

static void expect_trouble(uint16_t code) {
    ss_link_frame frame;
    ss_link_trouble trouble;
    run();
    EXPECT(next_type(&frame) == SS_LINK_TROUBLE);
    EXPECT(ss_link_read_trouble(frame.payload, frame.length, &trouble) && trouble.code == code && trouble.sequence == last_sent);
    EXPECT(next_type(&frame) == 0);
}

static void expect_accepted(uint8_t type) {
    ss_link_frame frame;
    ss_link_accepted accepted;
    run();
    EXPECT(next_type(&frame) == SS_LINK_ACCEPTED);
    EXPECT(ss_link_read_accepted(frame.payload, frame.length, &accepted) && accepted.type == type && accepted.sequence == last_sent);
    EXPECT(next_type(&frame) == 0);
}

static ss_link_progress expect_progress(uint8_t type) {
    ss_link_frame frame;
    ss_link_progress progress;
    run();
    EXPECT(next_type(&frame) == type);
    EXPECT(ss_link_read_progress(frame.payload, frame.length, &progress));
    EXPECT(progress.credit == last_sent + board.credit);
    return progress;
}

static void say_hello(uint32_t session) {
    ss_link_hello hello = {session, 1, 1, {"host", 4}};
    ss_link_frame frame;
    ss_link_about about;
    send(SS_LINK_HELLO, ss_link_write_hello(&hello, ss_link_payload(wire)));
    run();
    EXPECT(next_type(&frame) == SS_LINK_ABOUT);
    EXPECT(ss_link_read_about(frame.payload, frame.length, &about));
    EXPECT(about.session == session && about.version == 1 && about.credit >= 2 && about.state_bytes == 4242);
    EXPECT(about.detector.length == 7 && memcmp(about.detector.text, "check 1", 7) == 0);
    EXPECT(next_type(&frame) == 0);
}

static void send_tick(uint8_t type, int64_t tick) {
    send(type, ss_link_write_tick(tick, ss_link_payload(wire)));
}

/* Rates that share a clock: 1000 ticks a second. */
static void make_format(uint8_t channels) {
    static const uint32_t rates[] = {1000, 500, 250, 200, 125, 100, 50, 40};
    memset(&host_format, 0, sizeof host_format);
    host_format.ticks_per_second = 1000;
    host_format.channel_count = channels;
    for (uint8_t c = 0; c < channels; c++) {
        ss_link_channel channel;
        memset(&channel, 0, sizeof channel);
        channel.name = (uint8_t)(c + (8 - channels));
        channel.bits = (uint8_t)(6 + random_below(19));
        channel.is_signed = (uint8_t)random_below(2);
        channel.rate_hz = c == 0 ? 1000 : rates[random_below(8)];
        channel.ticks_per_sample = 1000 / channel.rate_hz;
        channel.codes_per_unit256 = 256;
        ss_link_set_channel(&host_format, c, &channel);
    }
}

static void tell_format(void) {
    for (unsigned part = 0; part * SS_LINK_CHANNELS_EACH < host_format.channel_count; part++) {
        send(SS_LINK_FORMAT, ss_link_write_format(&host_format, part, ss_link_payload(wire)));
        expect_accepted(SS_LINK_FORMAT);
    }
}

static void begin_board(const ss_board_source *source) {
    memset(&to_board, 0, sizeof to_board);
    memset(&to_host, 0, sizeof to_host);
    memset(&host_writer, 0, sizeof host_writer);
    memset(&host_reader, 0, sizeof host_reader);
    host_marks = 0;
    ss_board_begin(&board, &port, &detector, NULL, source);
}

/* ---- Streams: what the detector gets is what was sent, whatever the pieces and the line ---- */

static seen_sample sent[MOST_SEEN];
static size_t sent_count;

static int32_t random_code(const ss_link_channel *channel) {
    const uint32_t code = (random_below(1u << 12) << 12 | random_below(1u << 12)) & ((1u << channel->bits) - 1u);
    return channel->is_signed && code >> (channel->bits - 1) ? (int32_t)code - (1 << channel->bits) : (int32_t)code;
}

/* One samples frame of up to 100 ticks from a tick; returns where it ends. */
static int64_t send_samples(int64_t tick, int is_lost) {
    int32_t codes[255];
    uint16_t status[255];
    const size_t before = sent_count;
    uint32_t ticks = 1 + random_below(100);
    uint8_t *payload = ss_link_payload(wire);
    size_t length = ss_link_begin_samples(tick, ticks, 0, payload);
    for (uint8_t c = 0; c < host_format.channel_count; c++) {
        ss_link_channel channel;
        ss_link_get_channel(&host_format, c, &channel);
        const int64_t first = (tick + channel.ticks_per_sample - 1) / channel.ticks_per_sample;
        const int64_t end = (tick + ticks + channel.ticks_per_sample - 1) / channel.ticks_per_sample;
        uint32_t gap = random_below(4) == 0 ? random_below(5) : 0;
        if (first + gap >= end) {
            continue;
        }
        uint32_t count = (uint32_t)(end - first - gap);
        count = random_below(4) == 0 ? 1 + random_below(count) : count;
        const uint32_t kind = random_below(3);
        const uint16_t word = (uint16_t)random_below(65536);
        for (uint32_t i = 0; i < count; i++) {
            codes[i] = random_code(&channel);
            status[i] = kind == 0 ? 0 : kind == 1 ? word : (uint16_t)random_below(65536);
        }
        const size_t longer = ss_link_add_section(payload, length, c, channel.bits, (uint8_t)gap, codes, kind == 0 ? NULL : status, count);
        if (longer == 0) {
            continue; /* does not fit: the channel has no samples then */
        }
        length = longer;
        for (uint32_t i = 0; i < count && !is_lost; i++) {
            EXPECT(sent_count < MOST_SEEN);
            sent[sent_count].index = first + gap + i;
            sent[sent_count].code = codes[i];
            sent[sent_count].status = status[i];
            sent[sent_count].channel = c;
            sent_count++;
        }
    }
    if (is_lost) {
        host_writer.next_sequence++;
        sent_count = before;
    } else {
        send(SS_LINK_SAMPLES, length);
    }
    return tick + ticks;
}

/* By channel, then by index: pieces mix the channels otherwise than frames do. */
static int by_place(const void *one, const void *other) {
    const seen_sample *a = one;
    const seen_sample *b = other;
    return a->channel != b->channel ? a->channel - b->channel : a->index < b->index ? -1 : a->index > b->index;
}

static void check_stream(void) {
    begin_board(NULL);
    line_is_choppy = (int)random_below(2);
    say_hello(check_seed);
    make_format((uint8_t)(1 + random_below(8)));
    tell_format();
    int64_t tick = random_below(2) == 0 ? 0 : (int64_t)random_below(1u << 30) * random_below(1u << 20);
    send_tick(SS_LINK_START, tick);
    expect_accepted(SS_LINK_START);
    EXPECT(detector_tick == tick);
    sent_count = 0;
    uint32_t lost = 0;
    for (int i = 0; i < 60; i++) {
        const int is_lost = random_below(10) == 0;
        lost += (uint32_t)is_lost;
        const int64_t end = send_samples(tick, is_lost);
        tick = end + (random_below(8) == 0 ? random_below(300) : 0);
        if (!is_lost) {
            run();
            ss_link_frame frame;
            while (next_type(&frame) != 0) {
                EXPECT(frame.type == SS_LINK_PROGRESS);
            }
            EXPECT(board.taken_tick == end && detector_tick == end);
        }
    }
    /* A mark of time: all before it is over. */
    send(SS_LINK_SAMPLES, ss_link_begin_samples(tick, 0, 1, ss_link_payload(wire)));
    EXPECT(expect_progress(SS_LINK_PROGRESS).taken_tick == tick && detector_tick == tick);
    send_tick(SS_LINK_STOP, tick + 5);
    run();
    ss_link_frame frame;
    EXPECT(next_type(&frame) == SS_LINK_FIGURES);
    const ss_link_progress stopped = expect_progress(SS_LINK_STOPPED);
    EXPECT(detector_tick == tick + 5);
    EXPECT(is_flushed == 1 && stopped.marks_sent == host_marks && host_marks == marks_given && stopped.taken_tick == tick + 5);
    EXPECT(stopped.missing == lost && stopped.damaged == 0 && stopped.repeated == 0 && stopped.accepted == board.reader.good);
    EXPECT(sent_count == seen_count);
    qsort(seen, seen_count, sizeof seen[0], by_place);
    qsort(sent, sent_count, sizeof sent[0], by_place);
    for (size_t i = 0; i < seen_count; i++) {
        EXPECT(seen[i].channel == sent[i].channel && seen[i].index == sent[i].index && seen[i].code == sent[i].code && seen[i].status == sent[i].status);
    }
    /* Again: nothing is flushed twice, the answer is the same. */
    send_tick(SS_LINK_STOP, tick + 5);
    run();
    EXPECT(next_type(&frame) == SS_LINK_FIGURES);
    EXPECT(expect_progress(SS_LINK_STOPPED).marks_sent == host_marks && is_flushed == 1);
    line_is_choppy = 0;
}

/* ---- Capture: what comes is what the source gave ---- */

static int64_t source_tick;

static void source_begin(void *context, ss_link_format *format) {
    (void)context;
    *format = host_format;
    source_tick = 0;
}

static int source_next(void *context, int32_t *codes, uint16_t *status, ss_board_captured *captured) {
    (void)context;
    if (source_tick >= 3000 || random_below(3) == 0) {
        return 0;
    }
    captured->begin_tick = source_tick;
    captured->ticks = 1 + random_below(100);
    uint16_t place = 0;
    for (uint8_t c = 0; c < host_format.channel_count; c++) {
        ss_link_channel channel;
        ss_link_get_channel(&host_format, c, &channel);
        const int64_t first = (source_tick + channel.ticks_per_sample - 1) / channel.ticks_per_sample;
        const int64_t end = (source_tick + captured->ticks + channel.ticks_per_sample - 1) / channel.ticks_per_sample;
        const uint32_t all = (uint32_t)(end - first);
        const uint32_t gap = all > 0 && random_below(4) == 0 ? random_below(all) : 0;
        uint32_t count = all - gap;
        count = place + count > SS_BOARD_SAMPLES ? (uint32_t)SS_BOARD_SAMPLES - place : count;
        captured->channels[c].place = place;
        captured->channels[c].gap = (uint8_t)gap;
        captured->channels[c].count = (uint8_t)count;
        const uint16_t word = (uint16_t)(random_below(2) * 128);
        for (uint32_t i = 0; i < count; i++) {
            codes[place] = random_code(&channel);
            status[place] = word;
            EXPECT(sent_count < MOST_SEEN);
            sent[sent_count].index = first + gap + i;
            sent[sent_count].code = codes[place];
            sent[sent_count].status = word;
            sent[sent_count].channel = c;
            sent_count++;
            place++;
        }
    }
    source_tick += captured->ticks;
    return 1;
}

static const ss_board_source source = {NULL, source_begin, source_next};

static void check_capture(void) {
    make_format((uint8_t)(1 + random_below(8)));
    begin_board(&source);
    line_is_choppy = (int)random_below(2);
    say_hello(check_seed);
    sent_count = 0;
    seen_count = 0;
    send(SS_LINK_CAPTURE, ss_link_write_capture(ss_link_payload(wire)));
    for (int i = 0; i < 100000 && source_tick < 3000; i++) {
        ss_board_step(&board);
    }
    run();
    ss_link_frame frame;
    ss_link_format told;
    memset(&told, 0, sizeof told);
    EXPECT(next_type(&frame) == SS_LINK_ACCEPTED);
    for (unsigned part = 0; part * SS_LINK_CHANNELS_EACH < host_format.channel_count; part++) {
        EXPECT(next_type(&frame) == SS_LINK_FORMAT && ss_link_read_format(frame.payload, frame.length, &told));
    }
    EXPECT(ss_link_format_is_complete(&told));
    int64_t until = 0;
    uint8_t type;
    while ((type = next_type(&frame)) != 0) {
        ss_link_samples samples;
        ss_link_section section;
        EXPECT(type == SS_LINK_SAMPLES);
        EXPECT(ss_link_read_samples(&told, frame.payload, frame.length, &samples) == SS_LINK_NO_TROUBLE);
        EXPECT(samples.begin_tick == until);
        until += samples.ticks;
        while (ss_link_next_section(&told, &samples, &section)) {
            ss_link_codes codes;
            ss_link_begin_codes(&section, &codes);
            for (unsigned i = 0; i < section.count; i++) {
                EXPECT(seen_count < MOST_SEEN);
                seen[seen_count].index = section.first_index + i;
                seen[seen_count].code = ss_link_next_code(&codes);
                seen[seen_count].status = ss_link_status(&section, i);
                seen[seen_count].channel = section.channel;
                seen_count++;
            }
        }
    }
    EXPECT(until == source_tick && seen_count == sent_count);
    qsort(seen, seen_count, sizeof seen[0], by_place);
    qsort(sent, sent_count, sizeof sent[0], by_place);
    for (size_t i = 0; i < seen_count; i++) {
        EXPECT(seen[i].channel == sent[i].channel && seen[i].index == sent[i].index && seen[i].code == sent[i].code && seen[i].status == sent[i].status);
    }
    send_tick(SS_LINK_STOP, 0);
    run();
    EXPECT(next_type(&frame) == SS_LINK_FIGURES);
    (void)expect_progress(SS_LINK_STOPPED);
    line_is_choppy = 0;
}

/* The first channel has another zero than before. */
static void make_other_format(void) {
    ss_link_channel channel;
    ss_link_get_channel(&host_format, 0, &channel);
    channel.zero_code++;
    ss_link_set_channel(&host_format, 0, &channel);
}

/* The largest delay and the largest code of zero are taken, one more is not, either way; the smallest number there is must not be negated. */
static void check_bounds(void) {
    static const int64_t delays[] = {SS_LINK_MAX_DELAY256, -SS_LINK_MAX_DELAY256, SS_LINK_MAX_DELAY256 + 1, -SS_LINK_MAX_DELAY256 - 1, INT64_MIN};
    for (unsigned i = 0; i < sizeof delays / sizeof delays[0]; i++) {
        ss_link_channel channel;
        say_hello(1000 + i);
        make_format(1);
        ss_link_get_channel(&host_format, 0, &channel);
        channel.delay256 = delays[i];
        ss_link_set_channel(&host_format, 0, &channel);
        send(SS_LINK_FORMAT, ss_link_write_format(&host_format, 0, ss_link_payload(wire)));
        if (i < 2) {
            expect_accepted(SS_LINK_FORMAT);
        } else {
            expect_trouble(SS_LINK_FORMAT_REFUSED);
        }
    }
    static const int32_t zeros[] = {SS_LINK_MAX_ZERO_CODE, -SS_LINK_MAX_ZERO_CODE, SS_LINK_MAX_ZERO_CODE + 1, -SS_LINK_MAX_ZERO_CODE - 1, INT32_MIN, INT32_MAX};
    for (unsigned i = 0; i < sizeof zeros / sizeof zeros[0]; i++) {
        ss_link_channel channel;
        say_hello(2000 + i);
        make_format(1);
        ss_link_get_channel(&host_format, 0, &channel);
        channel.zero_code = zeros[i];
        ss_link_set_channel(&host_format, 0, &channel);
        send(SS_LINK_FORMAT, ss_link_write_format(&host_format, 0, ss_link_payload(wire)));
        if (i < 2) {
            expect_accepted(SS_LINK_FORMAT);
        } else {
            expect_trouble(SS_LINK_FORMAT_REFUSED);
        }
    }
}

/* ---- Each frame at the wrong time, or with the wrong content ---- */

static void check_troubles(void) {
    ss_link_frame frame;
    ss_link_item item = {-5, 0x8001, 0};
    begin_board(NULL);
    send(SS_LINK_ASK, 0);
    expect_trouble(SS_LINK_NOT_STARTED);
    send_tick(SS_LINK_STOP, 0);
    expect_trouble(SS_LINK_NOT_STARTED);
    send(SS_LINK_SAMPLES, ss_link_begin_samples(0, 10, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_NOT_STARTED);

    say_hello(1);
    const int begins = detector_begins;
    say_hello(1);
    EXPECT(detector_begins == begins);
    ss_link_hello newer = {2, 2, 9, {"host", 4}};
    send(SS_LINK_HELLO, ss_link_write_hello(&newer, ss_link_payload(wire)));
    expect_trouble(SS_LINK_WRONG_VERSION);
    send(SS_LINK_HELLO, 7);
    expect_trouble(SS_LINK_WRONG_CONTENT);
    send(0x42, 0);
    expect_trouble(SS_LINK_UNKNOWN_TYPE);
    send(SS_LINK_CAPTURE, ss_link_write_capture(ss_link_payload(wire)));
    expect_trouble(SS_LINK_UNKNOWN_TYPE);
    send_tick(SS_LINK_START, 0);
    expect_trouble(SS_LINK_FORMAT_REFUSED);
    send(SS_LINK_FORMAT, 8);
    expect_trouble(SS_LINK_FORMAT_REFUSED);
    send_tick(SS_LINK_STOP, 0);
    expect_trouble(SS_LINK_NOT_STARTED);

    make_format(1);
    tell_format();
    tell_format();
    ss_link_channel channel;
    ss_link_get_channel(&host_format, 0, &channel);
    channel.bits = 5;
    ss_link_set_channel(&host_format, 0, &channel);
    send(SS_LINK_FORMAT, ss_link_write_format(&host_format, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_FORMAT_REFUSED);
    host_writer.next_sequence += 3;
    send(SS_LINK_ASK, 0);
    EXPECT(expect_progress(SS_LINK_PROGRESS).missing == 3);
    say_hello(2);
    EXPECT(detector_begins == begins + 1);
    send(SS_LINK_ASK, 0);
    EXPECT(expect_progress(SS_LINK_PROGRESS).missing == 0);
    tell_format();
    send_tick(SS_LINK_START, 0);
    expect_trouble(SS_LINK_FORMAT_REFUSED);

    check_bounds();

    say_hello(3);
    make_format(2);
    tell_format();
    send(SS_LINK_SETUP, ss_link_put_item(&item, 0, ss_link_payload(wire)));
    expect_accepted(SS_LINK_SETUP);
    item.value = 6;
    send(SS_LINK_SETUP, ss_link_put_item(&item, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_SETUP_REFUSED);
    send(SS_LINK_SETUP, 13);
    expect_trouble(SS_LINK_WRONG_CONTENT);
    /* The detector sees a frame's items together, so that it can take all or none of them. */
    items_taken = 0;
    item.value = -5;
    (void)ss_link_put_item(&item, 0, ss_link_payload(wire));
    item.value = 6;
    send(SS_LINK_SETUP, ss_link_put_item(&item, 1, ss_link_payload(wire)));
    expect_trouble(SS_LINK_SETUP_REFUSED);
    EXPECT(items_taken == 0);
    item.value = -5;
    for (unsigned i = 0; i < SS_LINK_MAX_ITEMS - 1u; i++) {
        (void)ss_link_put_item(&item, i, ss_link_payload(wire));
    }
    send(SS_LINK_SETUP, ss_link_put_item(&item, SS_LINK_MAX_ITEMS - 1u, ss_link_payload(wire)));
    expect_accepted(SS_LINK_SETUP);
    EXPECT(items_taken == SS_LINK_MAX_ITEMS);
    unfit = "the items contradict each other";
    send_tick(SS_LINK_START, 1000);
    expect_trouble(SS_LINK_SETUP_REFUSED);
    unfit = NULL;
    send_tick(SS_LINK_START, 1000);
    expect_accepted(SS_LINK_START);
    /* Begun: the same is accepted and changes nothing, another format is not. */
    tell_format();
    items_taken = 0;
    send(SS_LINK_SETUP, ss_link_put_item(&item, 0, ss_link_payload(wire)));
    expect_accepted(SS_LINK_SETUP);
    EXPECT(items_taken == 0);
    make_other_format();
    send(SS_LINK_FORMAT, ss_link_write_format(&host_format, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_FORMAT_REFUSED);
    send_tick(SS_LINK_START, 1000);
    expect_accepted(SS_LINK_START);
    send_tick(SS_LINK_START, 1001);
    expect_trouble(SS_LINK_WRONG_CONTENT);
    send(SS_LINK_SAMPLES, ss_link_begin_samples(999, 10, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_SAMPLES_TOO_EARLY);
    send(SS_LINK_SAMPLES, ss_link_begin_samples(1000, 101, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_WRONG_CONTENT);
    const int32_t code = 1;
    size_t length = ss_link_begin_samples(1000, 100, 0, ss_link_payload(wire));
    length = ss_link_add_section(ss_link_payload(wire), length, 2, 8, 0, &code, NULL, 1);
    send(SS_LINK_SAMPLES, length);
    expect_trouble(SS_LINK_NO_SUCH_CHANNEL);
    send(SS_LINK_ASK, 0);
    ss_link_progress progress = expect_progress(SS_LINK_PROGRESS);
    EXPECT(progress.session == 3 && progress.taken_tick == 1000 && progress.accepted == board.reader.good);
    send_tick(SS_LINK_STOP, 1000);
    run();
    EXPECT(next_type(&frame) == SS_LINK_FIGURES);
    (void)expect_progress(SS_LINK_STOPPED);
    send(SS_LINK_SAMPLES, ss_link_begin_samples(1000, 10, 0, ss_link_payload(wire)));
    expect_trouble(SS_LINK_NOT_STARTED);
}

/* ---- Noise: whatever comes, the board lives and a new session works ---- */

static void check_noise(void) {
    begin_board(random_below(2) == 0 ? NULL : &source);
    make_format((uint8_t)(1 + random_below(8)));
    for (int i = 0; i < 40; i++) {
        const size_t from = to_board.put;
        if (random_below(3) == 0) {
            say_hello(random_below(3));
            for (unsigned part = 0; part < 2 && part * 4 < host_format.channel_count; part++) {
                send(SS_LINK_FORMAT, ss_link_write_format(&host_format, part, ss_link_payload(wire)));
            }
            send_tick(random_below(2) == 0 ? SS_LINK_START : SS_LINK_STOP, random_below(200));
        }
        /* Sound frames with payloads of any bytes, as a wrong program sends them; so the check does not keep them away. */
        for (int k = 0; k < 10; k++) {
            static const uint8_t types[] = {1, 2, 3, 4, 5, 6, 7, 16, 16, 16, 16, 18, 200};
            const size_t length = random_below(SS_LINK_MAX_PAYLOAD + 1);
            if (random_below(3) != 0) {
                (void)send_samples(random_below(400), 0);
            } else {
                for (size_t b = 0; b < length; b++) {
                    ss_link_payload(wire)[b] = (uint8_t)(random_below(4) == 0 ? random_below(256) : random_below(4));
                }
                send(types[random_below(sizeof types)], length);
            }
        }
        /* And some damage on the way. */
        for (int k = 0; k < 4; k++) {
            to_board.bytes[from + random_below((uint32_t)(to_board.put - from))] ^= (uint8_t)(1u << random_below(8));
        }
        sent_count = 0;
        seen_count = 0;
        source_tick = 0;
        detector_tick = 0;
        for (int step = 0; step < 4000; step++) {
            detector_tick = seen_count = 0;
            (void)ss_board_step(&board);
        }
        to_board.got = to_board.put = 0;
        to_host.got = to_host.put = 0;
    }
    begin_board(NULL);
    say_hello(77);
}

int main(int argc, char **argv) {
    const unsigned first = argc > 1 ? (unsigned)strtoul(argv[1], NULL, 10) : 1;
    const unsigned rounds = argc > 2 ? (unsigned)strtoul(argv[2], NULL, 10) : 200;
    for (unsigned i = 0; i < rounds; i++) {
        check_seed = first + i;
        random_state = check_seed;
        check_stream();
        check_capture();
        check_troubles();
        check_noise();
    }
    printf("session: %u rounds of streams, captures, troubles and noise, %d samples at once\n", rounds, SS_BOARD_SAMPLES);
    return 0;
}
