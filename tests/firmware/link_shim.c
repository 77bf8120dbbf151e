/* SPDX-License-Identifier: MIT */
/* Lets a test call the codec in C with bytes only: frames of some bytes, a payload read and written again. */
#include <string.h>

#include "sensorsim_link.h"

int32_t shim_frames(const uint8_t *bytes, int32_t count, int32_t by_byte, uint8_t *out, int32_t room, uint32_t *counts);
int32_t shim_seal(uint32_t sequence, uint8_t type, const uint8_t *payload, int32_t length, uint8_t *out);
int32_t shim_again(uint8_t type, const uint8_t *payload, int32_t length, const uint8_t *formats, int32_t format_count, uint8_t *out, int32_t room);
uint32_t shim_crc(const uint8_t *bytes, int32_t count);

uint32_t shim_crc(const uint8_t *bytes, int32_t count) { return ss_link_crc32c(bytes, (size_t)count); }

/* Each frame as type, sequence, length, payload. Returns the bytes, -1 when they find no room. */
int32_t shim_frames(const uint8_t *bytes, int32_t count, int32_t by_byte, uint8_t *out, int32_t room, uint32_t *counts) {
    ss_link_reader reader;
    size_t at = 0, to = 0;
    memset(&reader, 0, sizeof reader);
    while (at < (size_t)count) {
        ss_link_frame frame;
        int is_frame;
        if (by_byte) {
            is_frame = ss_link_take(&reader, bytes[at++], &frame);
        } else {
            at += ss_link_read(&reader, bytes + at, (size_t)count - at, &frame, &is_frame);
        }
        if (is_frame) {
            if (to + 7 + frame.length > (size_t)room) {
                return -1;
            }
            out[to] = frame.type;
            memcpy(out + to + 1, &frame.sequence, 4);
            memcpy(out + to + 5, &frame.length, 2);
            memcpy(out + to + 7, frame.payload, frame.length);
            to += (size_t)7 + frame.length;
        }
    }
    counts[0] = reader.good;
    counts[1] = reader.damaged;
    counts[2] = reader.missing;
    counts[3] = reader.repeated;
    counts[4] = reader.other_version;
    return (int32_t)to;
}

int32_t shim_seal(uint32_t sequence, uint8_t type, const uint8_t *payload, int32_t length, uint8_t *out) {
    uint8_t wire[SS_LINK_WIRE_BUFFER];
    ss_link_writer writer;
    size_t wire_length;
    const uint8_t *from;
    writer.next_sequence = sequence;
    if (length > 0) {
        memcpy(ss_link_payload(wire), payload, (size_t)length);
    }
    from = ss_link_seal(&writer, type, (size_t)length, wire, &wire_length);
    memcpy(out, from, wire_length);
    return writer.next_sequence == (uint32_t)(sequence + 1) ? (int32_t)wire_length : -1;
}

/* What a samples payload says: trouble, then for each section channel, first index, count and each sample as code and status word;
 * after it the same payload made anew. */
static int32_t samples_again(const ss_link_format *format, const uint8_t *payload, size_t length, uint8_t *out, size_t room) {
    ss_link_samples samples;
    ss_link_section section;
    uint8_t made[SS_LINK_MAX_PAYLOAD];
    size_t to = 1, made_length;
    out[0] = (uint8_t)ss_link_read_samples(format, payload, length, &samples);
    if (out[0] != SS_LINK_NO_TROUBLE) {
        return 1;
    }
    made_length = ss_link_begin_samples(samples.begin_tick, samples.ticks, samples.wants_progress, made);
    while (ss_link_next_section(format, &samples, &section)) {
        int32_t codes[255];
        uint16_t status[255];
        ss_link_codes cursor;
        unsigned i;
        if (to + 10 + (6u * section.count) > room) {
            return -2;
        }
        out[to] = section.channel;
        memcpy(out + to + 1, &section.first_index, 8);
        out[to + 9] = section.count;
        to += 10;
        ss_link_begin_codes(&section, &cursor);
        for (i = 0; i < section.count; i++) {
            codes[i] = ss_link_next_code(&cursor);
            status[i] = ss_link_status(&section, i);
            memcpy(out + to, &codes[i], 4);
            memcpy(out + to + 4, &status[i], 2);
            to += 6;
        }
        if (made_length != 0) {
            made_length = ss_link_add_section(made, made_length, section.channel, section.bits, section.gap, codes, status, section.count);
        }
    }
    if (to + made_length > room) {
        return -2;
    }
    memcpy(out + to, made, made_length);
    return (int32_t)(to + made_length);
}

static int32_t format_again(ss_link_format *format, const uint8_t *payload, size_t length, uint8_t *out) {
    ss_link_format made;
    unsigned i;
    if (!ss_link_read_format(payload, length, format)) {
        return -1;
    }
    if (!ss_link_format_is_complete(format)) {
        return 0;
    }
    memset(&made, 0, sizeof made);
    made.ticks_per_second = format->ticks_per_second;
    made.channel_count = format->channel_count;
    for (i = 0; i < format->channel_count; i++) {
        ss_link_channel channel;
        ss_link_get_channel(format, i, &channel);
        ss_link_set_channel(&made, i, &channel);
    }
    return ss_link_format_is_complete(&made) ? (int32_t)ss_link_write_format(&made, payload[5] / SS_LINK_CHANNELS_EACH, out) : -2;
}

/* Reads a payload and writes it again. formats: payloads of 200 bytes each that are told before. Returns the bytes; -1 when it is refused. */
int32_t shim_again(uint8_t type, const uint8_t *payload, int32_t count, const uint8_t *formats, int32_t format_count, uint8_t *out, int32_t room) {
    ss_link_format format;
    size_t length = (size_t)count;
    int32_t i;
    memset(&format, 0, sizeof format);
    for (i = 0; i < format_count; i++) {
        const uint8_t *p = formats + (200 * i);
        if (!ss_link_read_format(p, 8 + (SS_LINK_CHANNEL_BYTES * (size_t)p[6]), &format)) {
            return -2;
        }
    }
    switch (type) {
    case SS_LINK_HELLO: {
        ss_link_hello x;
        return ss_link_read_hello(payload, length, &x) ? (int32_t)ss_link_write_hello(&x, out) : -1;
    }
    case SS_LINK_ABOUT: {
        ss_link_about x;
        return ss_link_read_about(payload, length, &x) ? (int32_t)ss_link_write_about(&x, out) : -1;
    }
    case SS_LINK_START:
    case SS_LINK_STOP: {
        int64_t x;
        return ss_link_read_tick(payload, length, &x) ? (int32_t)ss_link_write_tick(x, out) : -1;
    }
    case SS_LINK_CAPTURE:
        return ss_link_read_capture(payload, length) ? (int32_t)ss_link_write_capture(out) : -1;
    case SS_LINK_ACCEPTED: {
        ss_link_accepted x;
        return ss_link_read_accepted(payload, length, &x) ? (int32_t)ss_link_write_accepted(&x, out) : -1;
    }
    case SS_LINK_PROGRESS:
    case SS_LINK_STOPPED: {
        ss_link_progress x;
        return ss_link_read_progress(payload, length, &x) ? (int32_t)ss_link_write_progress(&x, out) : -1;
    }
    case SS_LINK_SETTING:
    case SS_LINK_REQUEST: {
        ss_link_setting x;
        return ss_link_read_setting(payload, length, &x) ? (int32_t)ss_link_write_setting(&x, out) : -1;
    }
    case SS_LINK_LOG: {
        ss_link_log x;
        return ss_link_read_log(payload, length, &x) ? (int32_t)ss_link_write_log(&x, out) : -1;
    }
    case SS_LINK_TROUBLE: {
        ss_link_trouble x;
        return ss_link_read_trouble(payload, length, &x) ? (int32_t)ss_link_write_trouble(&x, out) : -1;
    }
    case SS_LINK_SETUP:
    case SS_LINK_FIGURES: {
        unsigned items, at;
        size_t written = 0;
        if (!ss_link_read_items(length, &items)) {
            return -1;
        }
        for (at = 0; at < items; at++) {
            ss_link_item item;
            ss_link_get_item(payload, at, &item);
            written = ss_link_put_item(&item, at, out);
        }
        return (int32_t)written;
    }
    case SS_LINK_MARKS: {
        unsigned marks, at;
        size_t written = 0;
        if (!ss_link_read_marks(payload, length, format.channel_count, &marks)) {
            return -1;
        }
        for (at = 0; at < marks; at++) {
            ss_link_mark mark;
            ss_link_get_mark(payload, at, &mark);
            written = ss_link_put_mark(&mark, at, out);
        }
        return (int32_t)written;
    }
    case SS_LINK_FORMAT:
        return format_again(&format, payload, length, out);
    case SS_LINK_SAMPLES:
        return samples_again(&format, payload, length, out, (size_t)room);
    default:
        return length == 0 ? 0 : -1;
    }
}
