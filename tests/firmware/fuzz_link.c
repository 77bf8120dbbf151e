/* SPDX-License-Identifier: MIT */
/*
 * Drives the codec in C with frames on a bad wire, with payloads that are damaged or made of nothing, and with values of Bluetooth
 * characteristics of any bytes. To be built with all sources of src/firmware/link and
 * -fsanitize=address,undefined: every buffer that is read is on the heap and just as long as it must be, so reading on is seen.
 * What must come out is found another way: the bytes between two 00 are one of the frames that were sent, to the byte, or damage.
 *
 *     fuzz_link FRAMES [SEED]
 */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sensorsim_link.h"
#include "sensorsim_payloads.h"

#define FRAMES 24
#define WIRE 24000

static uint64_t state;

/* xorshift64*: Marsaglia 2003, Vigna 2016. */
static uint32_t draw(uint32_t below) {
    state ^= state >> 12;
    state ^= state << 25;
    state ^= state >> 27;
    return (uint32_t)((((state * 2685821657736338717u) >> 32) * below) >> 32);
}

static void fail(const char *what) {
    fprintf(stderr, "fuzz_link: %s\n", what);
    exit(1);
}

static uint8_t *copy_of(const uint8_t *bytes, size_t length) {
    uint8_t *copy = malloc(length > 0 ? length : 1);
    if (copy == NULL) {
        fail("no memory");
    }
    if (length > 0) {
        memcpy(copy, bytes, length);
    }
    return copy;
}

static size_t random_payload(uint8_t *payload) {
    size_t length = draw(SS_LINK_MAX_PAYLOAD + 1), i;
    uint32_t sort = draw(3);
    for (i = 0; i < length; i++) {
        uint32_t byte = draw(256);
        payload[i] = (uint8_t)(sort == 0 ? byte : sort == 1 ? (draw(4) ? 0 : byte) : byte | 1);
    }
    return length;
}

/* ---- Frames ---- */

typedef struct {
    uint8_t bytes[SS_LINK_WIRE_BUFFER];
    size_t length;
    uint32_t sequence;
    uint8_t type;
} sent_frame;

static sent_frame sent[FRAMES];
static uint8_t wire[WIRE];
static size_t wire_length;

static void put(const uint8_t *bytes, size_t length) {
    if (wire_length + length > WIRE) {
        fail("the wire is too short");
    }
    memcpy(wire + wire_length, bytes, length);
    wire_length += length;
}

static void put_random(size_t length) {
    uint8_t bytes[600];
    size_t i;
    for (i = 0; i < length; i++) {
        bytes[i] = (uint8_t)draw(256);
    }
    put(bytes, length);
}

static void put_damaged(const sent_frame *frame) {
    uint8_t bytes[SS_LINK_WIRE_BUFFER];
    size_t at = draw((uint32_t)frame->length), i;
    memcpy(bytes, frame->bytes, frame->length);
    switch (draw(16)) {
    case 0:
        for (i = (size_t)1 << draw(5); i > 0; i--) {
            bytes[draw((uint32_t)frame->length)] ^= (uint8_t)(1u << draw(8));
        }
        break;
    case 1: /* the rest is cut off */
        put(bytes, at);
        return;
    case 2: /* a byte is lost */
        put(bytes, at);
        put(bytes + at + 1, frame->length - at - 1);
        return;
    case 3: /* bytes come in between */
        put(bytes, at);
        put_random(1 + draw(5));
        put(bytes + at, frame->length - at);
        return;
    case 4: /* lost */
        return;
    case 5: /* twice */
        put(bytes, frame->length);
        break;
    case 6: /* after something else */
        put_random(draw(600));
        break;
    case 7: /* one that came before comes again */
        frame = &sent[draw((uint32_t)(frame - sent) + 1)];
        put(frame->bytes, frame->length);
        return;
    default:
        break;
    }
    put(bytes, frame->length);
}

static void make_wire(void) {
    static const uint8_t types[] = {SS_LINK_SAMPLES, SS_LINK_MARKS, SS_LINK_PROGRESS, SS_LINK_HELLO, SS_LINK_ABOUT, SS_LINK_ASK, 0x7F};
    ss_link_writer writer;
    size_t i;
    writer.next_sequence = draw(8) == 0 ? 0u - draw(20) : draw(0xFFFFFFFFu);
    wire_length = 0;
    for (i = 0; i < FRAMES; i++) {
        uint8_t buffer[SS_LINK_WIRE_BUFFER];
        const uint8_t *from;
        sent_frame *frame = &sent[i];
        frame->type = types[draw(8) ? 0 : draw(sizeof types)];
        frame->sequence = writer.next_sequence;
        from = ss_link_seal(&writer, frame->type, random_payload(ss_link_payload(buffer)), buffer, &frame->length);
        memcpy(frame->bytes, from, frame->length);
        put_damaged(frame);
    }
}

/* The sent frame that some bytes between two 00 are, or null. */
static const sent_frame *frame_of(const uint8_t *bytes, size_t length) {
    size_t i;
    for (i = 0; i < FRAMES; i++) {
        size_t front = sent[i].bytes[0] == 0 ? 1u : 0u;
        if (sent[i].length - front - 1 == length && memcmp(sent[i].bytes + front, bytes, length) == 0) {
            return &sent[i];
        }
    }
    return NULL;
}

static void check_payload(uint8_t type, const uint8_t *payload, size_t length);

static void check_wire(void) {
    ss_link_reader *reader = calloc(1, sizeof *reader);
    uint32_t good = 0, damaged = 0, missing = 0, repeated = 0, last = 0;
    size_t at = 0, begin = 0;
    int has_last = 0;
    if (reader == NULL) {
        fail("no memory");
    }
    while (at < wire_length) {
        size_t cut = 1 + draw(300), taken = 0;
        uint8_t *piece;
        cut = cut > wire_length - at ? wire_length - at : cut;
        piece = copy_of(wire + at, cut);
        while (taken < cut) {
            ss_link_frame frame;
            int is_frame;
            size_t count = ss_link_read(reader, piece + taken, cut - taken, &frame, &is_frame), end;
            taken += count;
            /* All stretches that ended in these bytes; only the last one can be the frame. */
            for (end = at; end < at + count; end++) {
                if (wire[end] == 0) {
                    const sent_frame *expected = frame_of(wire + begin, end - begin);
                    uint32_t ahead = expected == NULL ? 0 : expected->sequence - last;
                    int is_new = expected != NULL && (!has_last || expected->type == SS_LINK_HELLO || expected->type == SS_LINK_ABOUT);
                    int is_good = expected != NULL && (is_new || (ahead >= 1 && ahead <= 0x7FFFFFFFu));
                    if (is_good != (is_frame && end == at + count - 1)) {
                        fail(is_good ? "a good frame was not accepted" : "a frame was accepted that was not sent");
                    }
                    if (is_good) {
                        if (frame.type != expected->type || frame.sequence != expected->sequence) {
                            fail("type or number are not those of the frame");
                        }
                        check_payload(frame.type, frame.payload, frame.length);
                        missing += is_new ? 0 : ahead - 1;
                        has_last = 1;
                        last = expected->sequence;
                        good++;
                    } else if (expected != NULL) {
                        repeated++;
                    } else if (end > begin) {
                        damaged++;
                    }
                    begin = end + 1;
                }
            }
            at += count;
        }
        free(piece);
    }
    if (reader->good != good || reader->damaged != damaged || reader->missing != missing || reader->repeated != repeated) {
        fail("the counts are not those of the wire");
    }
    free(reader);
}

/* ---- Payloads ---- */

static ss_link_format *format;

static void make_format(void) {
    static const uint32_t rates[] = {250, 500, 100, 50, 25};
    unsigned i, count = 1 + draw(SS_LINK_MAX_CHANNELS);
    memset(format, 0, sizeof *format);
    format->ticks_per_second = 500;
    format->channel_count = (uint8_t)count;
    for (i = 0; i < count; i++) {
        ss_link_channel channel;
        memset(&channel, 0, sizeof channel);
        channel.name = (uint8_t)i;
        channel.bits = (uint8_t)(4 + draw(21));
        channel.is_signed = (uint8_t)draw(2);
        channel.rate_hz = i == 0 ? 500 : rates[draw(5)];
        channel.ticks_per_sample = 500 / channel.rate_hz;
        channel.codes_per_unit256 = 1;
        ss_link_set_channel(format, i, &channel);
    }
}

/* Sections are gone through, codes unpacked; the same payload is made anew and must be read as the same. */
static void check_samples(const uint8_t *payload, size_t length) {
    ss_link_samples samples;
    ss_link_section section;
    if (ss_link_read_samples(format, payload, length, &samples) != SS_LINK_NO_TROUBLE) {
        return;
    }
    while (ss_link_next_section(format, &samples, &section)) {
        ss_link_codes cursor;
        int32_t low = section.is_signed ? -(1 << (section.bits - 1)) : 0;
        int32_t high = low + (int32_t)(1u << section.bits) - 1;
        unsigned i;
        ss_link_begin_codes(&section, &cursor);
        for (i = 0; i < section.count; i++) {
            int32_t code = ss_link_next_code(&cursor);
            if (code < low || code > high) {
                fail("a code is outside of its bits");
            }
            (void)ss_link_status(&section, i);
        }
        if (section.first_index < 0) {
            fail("a sample lies before the stream");
        }
    }
}

static void check_payload(uint8_t type, const uint8_t *bytes, size_t length) {
    uint8_t *payload = copy_of(bytes, length), *out = malloc(SS_LINK_MAX_PAYLOAD);
    unsigned count, i;
    union {
        ss_link_hello hello;
        ss_link_about about;
        ss_link_accepted accepted;
        ss_link_progress progress;
        ss_link_setting setting;
        ss_link_log log;
        ss_link_trouble trouble;
        ss_link_item item;
        ss_link_mark mark;
        int64_t tick;
    } x;
    ss_link_format *told = calloc(1, sizeof *told);
    size_t written = 0;
    if (out == NULL || told == NULL) {
        fail("no memory");
    }
    switch (type) {
    case SS_LINK_HELLO:
        written = ss_link_read_hello(payload, length, &x.hello) ? ss_link_write_hello(&x.hello, out) : 0;
        break;
    case SS_LINK_ABOUT:
        written = ss_link_read_about(payload, length, &x.about) ? ss_link_write_about(&x.about, out) : 0;
        break;
    case SS_LINK_START:
    case SS_LINK_STOP:
        written = ss_link_read_tick(payload, length, &x.tick) ? ss_link_write_tick(x.tick, out) : 0;
        break;
    case SS_LINK_ACCEPTED:
        written = ss_link_read_accepted(payload, length, &x.accepted) ? ss_link_write_accepted(&x.accepted, out) : 0;
        break;
    case SS_LINK_PROGRESS:
    case SS_LINK_STOPPED:
        written = ss_link_read_progress(payload, length, &x.progress) ? ss_link_write_progress(&x.progress, out) : 0;
        break;
    case SS_LINK_SETTING:
    case SS_LINK_REQUEST:
        written = ss_link_read_setting(payload, length, &x.setting) ? ss_link_write_setting(&x.setting, out) : 0;
        break;
    case SS_LINK_LOG:
        written = ss_link_read_log(payload, length, &x.log) ? ss_link_write_log(&x.log, out) : 0;
        break;
    case SS_LINK_TROUBLE:
        written = ss_link_read_trouble(payload, length, &x.trouble) ? ss_link_write_trouble(&x.trouble, out) : 0;
        break;
    case SS_LINK_SETUP:
    case SS_LINK_FIGURES:
        for (i = 0; ss_link_read_items(length, &count) && i < count; i++) {
            ss_link_get_item(payload, i, &x.item);
            written = ss_link_put_item(&x.item, i, out);
        }
        break;
    case SS_LINK_MARKS:
        for (i = 0; ss_link_read_marks(payload, length, 8, &count) && i < count; i++) {
            ss_link_get_mark(payload, i, &x.mark);
            written = ss_link_put_mark(&x.mark, i, out);
        }
        break;
    case SS_LINK_FORMAT:
        written = ss_link_read_format(payload, length, told) && ss_link_format_is_complete(told) ? ss_link_write_format(told, 0, out) : 0;
        break;
    case SS_LINK_SAMPLES:
        check_samples(payload, length);
        break;
    default:
        break;
    }
    if (written > SS_LINK_MAX_PAYLOAD || (written != 0 && written != length && type != SS_LINK_FORMAT)) {
        fail("a payload was written that is not as long as the one that was read");
    }
    free(told);
    free(out);
    free(payload);
}

/* A good samples payload that is then perhaps changed in a byte or cut: the random ones hardly ever pass the first look. */
static void fuzz_samples(void) {
    uint8_t payload[SS_LINK_MAX_PAYLOAD];
    int32_t codes[255];
    uint16_t status[255];
    unsigned i;
    size_t length = ss_link_begin_samples((int64_t)draw(1000) * 50, 1 + draw(50), (int)draw(2), payload), more;
    for (i = 0; i < 255; i++) {
        codes[i] = (int32_t)(draw(1u << 24)) - (1 << 23);
        status[i] = (uint16_t)(draw(4) ? 0 : draw(65536));
    }
    for (i = 0; i < format->channel_count; i++) {
        if (draw(4) != 0) {
            more = ss_link_add_section(payload, length, (uint8_t)i, format->channels[i][1], (uint8_t)draw(3), codes, draw(2) ? status : NULL, 1 + draw(30));
            length = more != 0 ? more : length;
        }
    }
    if (draw(2) != 0) {
        payload[draw((uint32_t)length)] = (uint8_t)draw(256);
    }
    if (draw(4) == 0) {
        length = draw((uint32_t)length + 1);
    }
    check_payload(SS_LINK_SAMPLES, payload, length);
}

/* A value that is read is made again with the same bytes, but for reserved flags. */
static void check_value(void) {
    uint8_t bytes[24], again[24];
    size_t length = draw(SS_PAYLOAD_ROOM + 1), i, made = 0;
    uint8_t *value;
    union {
        ss_heart_rate heart;
        ss_spot_check spot;
        ss_continuous continuous;
        ss_blood_pressure pressure;
    } x;
    for (i = 0; i < length; i++) {
        bytes[i] = (uint8_t)draw(256);
    }
    value = copy_of(bytes, length);
    switch (draw(4)) {
    case 0:
        made = ss_payload_read_heart_rate(value, length, &x.heart) ? ss_payload_write_heart_rate(&x.heart, again, SS_PAYLOAD_ROOM) : 0;
        break;
    case 1:
        made = ss_payload_read_spot_check(value, length, &x.spot) ? ss_payload_write_spot_check(&x.spot, again) : 0;
        break;
    case 2:
        made = ss_payload_read_continuous(value, length, &x.continuous) ? ss_payload_write_continuous(&x.continuous, again) : 0;
        break;
    default:
        made = ss_payload_read_blood_pressure(value, length, &x.pressure) ? ss_payload_write_blood_pressure(&x.pressure, again) : 0;
        break;
    }
    if (made != 0 && (made != length || memcmp(again + 1, value + 1, length - 1) != 0)) {
        fail("a value is made of other bytes than it was read from");
    }
    free(value);
}

int main(int count, char **arguments) {
    uint64_t frames = count > 1 ? strtoull(arguments[1], NULL, 10) : 100000, done;
    state = count > 2 ? strtoull(arguments[2], NULL, 10) : 1;
    state = state * 0x9E3779B97F4A7C15u | 1;
    format = malloc(sizeof *format);
    if (format == NULL) {
        fail("no memory");
    }
    for (done = 0; done < frames; done += FRAMES) {
        uint8_t payload[SS_LINK_MAX_PAYLOAD];
        make_format();
        make_wire();
        check_wire();
        fuzz_samples();
        check_value();
        check_value();
        check_payload((uint8_t)draw(256), payload, random_payload(payload));
        check_payload((uint8_t)(draw(2) ? draw(24) : 0x80 + draw(24)), payload, random_payload(payload));
    }
    free(format);
    printf("%" PRIu64 " frames on bad wires: the right ones accepted, all damage counted\n", done);
    return 0;
}
