/* SPDX-License-Identifier: MIT */
/* Payloads of the session: text, answers, items, marks. */
#include <string.h>

#include "sensorsim_link.h"
#include "sensorsim_link_bytes.h"

#define MARK_BYTES 44u
#define ITEM_BYTES 12u

/* ---- Text ---- */

/* A character is not cut: the bytes 10xxxxxx go with the one before them. */
static size_t put_text(ss_link_text text, size_t at, uint8_t *payload) {
    size_t length = text.length;
    if (length > SS_LINK_MAX_PAYLOAD - at) {
        length = SS_LINK_MAX_PAYLOAD - at;
        while (length > 0 && ((uint8_t)text.text[length] & 0xC0u) == 0x80u) {
            length--;
        }
    }
    if (length > 0) {
        memcpy(payload + at, text.text, length);
    }
    return at + length;
}

static ss_link_text get_text(const uint8_t *payload, size_t at, size_t length) {
    ss_link_text text;
    text.text = (const char *)payload + at;
    text.length = length - at;
    return text;
}

/* ---- Small payloads ---- */

size_t ss_link_write_hello(const ss_link_hello *hello, uint8_t *payload) {
    ss_put32(payload, hello->session);
    payload[4] = hello->oldest_version;
    payload[5] = hello->newest_version;
    ss_put16(payload + 6, 0);
    return put_text(hello->who, 8, payload);
}

int ss_link_read_hello(const uint8_t *payload, size_t length, ss_link_hello *hello) {
    if (length < 8) {
        return 0;
    }
    hello->session = ss_get32(payload);
    hello->oldest_version = payload[4];
    hello->newest_version = payload[5];
    hello->who = get_text(payload, 8, length);
    return 1;
}

size_t ss_link_write_about(const ss_link_about *about, uint8_t *payload) {
    ss_put32(payload, about->session);
    payload[4] = about->version;
    payload[5] = 0;
    ss_put16(payload + 6, about->largest_payload);
    ss_put32(payload + 8, about->credit);
    ss_put32(payload + 12, about->state_bytes);
    return put_text(about->detector, 16, payload);
}

int ss_link_read_about(const uint8_t *payload, size_t length, ss_link_about *about) {
    if (length < 16) {
        return 0;
    }
    about->session = ss_get32(payload);
    about->version = payload[4];
    about->largest_payload = ss_get16(payload + 6);
    about->credit = ss_get32(payload + 8);
    about->state_bytes = ss_get32(payload + 12);
    about->detector = get_text(payload, 16, length);
    return 1;
}

size_t ss_link_write_tick(int64_t tick, uint8_t *payload) {
    ss_put_s64(payload, tick);
    return 8;
}

int ss_link_read_tick(const uint8_t *payload, size_t length, int64_t *tick) {
    if (length != 8) {
        return 0;
    }
    *tick = ss_get_s64(payload);
    return ss_is_tick(*tick);
}

size_t ss_link_write_capture(uint8_t *payload) {
    ss_put32(payload, 0);
    return 4;
}

int ss_link_read_capture(const uint8_t *payload, size_t length) {
    (void)payload;
    return length == 4;
}

size_t ss_link_write_accepted(const ss_link_accepted *accepted, uint8_t *payload) {
    ss_put32(payload, accepted->type);
    ss_put32(payload + 4, accepted->sequence);
    return 8;
}

int ss_link_read_accepted(const uint8_t *payload, size_t length, ss_link_accepted *accepted) {
    if (length != 8) {
        return 0;
    }
    accepted->type = payload[0];
    accepted->sequence = ss_get32(payload + 4);
    return 1;
}

size_t ss_link_write_progress(const ss_link_progress *progress, uint8_t *payload) {
    ss_put32(payload, progress->session);
    ss_put32(payload + 4, progress->credit);
    ss_put_s64(payload + 8, progress->taken_tick);
    ss_put32(payload + 16, progress->accepted);
    ss_put32(payload + 20, progress->damaged);
    ss_put32(payload + 24, progress->missing);
    ss_put32(payload + 28, progress->repeated);
    ss_put32(payload + 32, progress->marks_sent);
    ss_put32(payload + 36, progress->clock_us);
    return 40;
}

int ss_link_read_progress(const uint8_t *payload, size_t length, ss_link_progress *progress) {
    if (length != 40) {
        return 0;
    }
    progress->session = ss_get32(payload);
    progress->credit = ss_get32(payload + 4);
    progress->taken_tick = ss_get_s64(payload + 8);
    progress->accepted = ss_get32(payload + 16);
    progress->damaged = ss_get32(payload + 20);
    progress->missing = ss_get32(payload + 24);
    progress->repeated = ss_get32(payload + 28);
    progress->marks_sent = ss_get32(payload + 32);
    progress->clock_us = ss_get32(payload + 36);
    return ss_is_tick(progress->taken_tick);
}

size_t ss_link_write_setting(const ss_link_setting *setting, uint8_t *payload) {
    payload[0] = setting->channel;
    payload[1] = setting->setting;
    ss_put16(payload + 2, 0);
    ss_put32(payload + 4, (uint32_t)setting->value_milli);
    ss_put_s64(payload + 8, setting->first_tick);
    return 16;
}

int ss_link_read_setting(const uint8_t *payload, size_t length, ss_link_setting *setting) {
    if (length != 16) {
        return 0;
    }
    setting->channel = payload[0];
    setting->setting = payload[1];
    setting->value_milli = ss_get_s32(payload + 4);
    setting->first_tick = ss_get_s64(payload + 8);
    return setting->setting < SS_LINK_SETTINGS && ss_is_tick(setting->first_tick);
}

size_t ss_link_write_log(const ss_link_log *log, uint8_t *payload) {
    payload[0] = log->level;
    return put_text(log->text, 1, payload);
}

int ss_link_read_log(const uint8_t *payload, size_t length, ss_link_log *log) {
    if (length < 1 || payload[0] > 2) {
        return 0;
    }
    log->level = payload[0];
    log->text = get_text(payload, 1, length);
    return 1;
}

size_t ss_link_write_trouble(const ss_link_trouble *trouble, uint8_t *payload) {
    ss_put32(payload, trouble->code);
    ss_put32(payload + 4, trouble->sequence);
    return put_text(trouble->text, 8, payload);
}

int ss_link_read_trouble(const uint8_t *payload, size_t length, ss_link_trouble *trouble) {
    if (length < 8) {
        return 0;
    }
    trouble->code = ss_get16(payload);
    trouble->sequence = ss_get32(payload + 4);
    trouble->text = get_text(payload, 8, length);
    return 1;
}

size_t ss_link_put_item(const ss_link_item *item, unsigned at, uint8_t *payload) {
    uint8_t *p = payload + (ITEM_BYTES * at);
    ss_put16(p, item->item);
    ss_put16(p + 2, item->index);
    ss_put_s64(p + 4, item->value);
    return ITEM_BYTES * ((size_t)at + 1);
}

int ss_link_read_items(size_t length, unsigned *count) {
    *count = (unsigned)length / ITEM_BYTES;
    return length <= SS_LINK_MAX_PAYLOAD && *count * ITEM_BYTES == length;
}

void ss_link_get_item(const uint8_t *payload, unsigned at, ss_link_item *item) {
    const uint8_t *p = payload + (ITEM_BYTES * at);
    item->item = ss_get16(p);
    item->index = ss_get16(p + 2);
    item->value = ss_get_s64(p + 4);
}

/* ---- Marks ---- */

size_t ss_link_put_mark(const ss_link_mark *mark, unsigned at, uint8_t *payload) {
    uint8_t *p = payload + 4 + (MARK_BYTES * at);
    ss_put32(payload, at + 1);
    p[0] = mark->kind;
    p[1] = mark->channel;
    p[2] = mark->paired_channel;
    p[3] = mark->quality;
    p[4] = mark->fraction256;
    p[5] = mark->paired_fraction256;
    p[6] = (uint8_t)((mark->has_value ? 1 : 0) | (mark->is_in_codes ? 2 : 0));
    p[7] = 0;
    ss_put_s64(p + 8, mark->sample);
    ss_put_s64(p + 16, mark->paired_sample);
    ss_put_s64(p + 24, mark->window_samples);
    ss_put_s64(p + 32, mark->emitted_tick);
    ss_put32(p + 40, (uint32_t)mark->value);
    return 4 + (MARK_BYTES * ((size_t)at + 1));
}

int ss_link_read_marks(const uint8_t *payload, size_t length, unsigned channel_count, unsigned *count) {
    unsigned i;
    if (length < 4 || payload[0] < 1 || payload[0] > SS_LINK_MAX_MARKS || length != 4 + (MARK_BYTES * (size_t)payload[0])) {
        return 0;
    }
    *count = payload[0];
    for (i = 0; i < *count; i++) {
        const uint8_t *p = payload + 4 + (MARK_BYTES * i);
        if (p[0] >= SS_LINK_MARK_KINDS || p[1] >= channel_count || (p[2] != SS_LINK_NOT_PAIRED && p[2] >= channel_count)) {
            return 0;
        }
    }
    return 1;
}

void ss_link_get_mark(const uint8_t *payload, unsigned at, ss_link_mark *mark) {
    const uint8_t *p = payload + 4 + (MARK_BYTES * at);
    int is_paired = p[2] != SS_LINK_NOT_PAIRED;
    mark->kind = p[0];
    mark->channel = p[1];
    mark->paired_channel = p[2];
    mark->quality = p[3];
    mark->fraction256 = p[4];
    mark->paired_fraction256 = is_paired ? p[5] : 0;
    mark->has_value = p[6] & 1u;
    mark->is_in_codes = (uint8_t)((p[6] >> 1) & 1u);
    mark->sample = ss_get_s64(p + 8);
    mark->paired_sample = is_paired ? ss_get_s64(p + 16) : 0;
    mark->window_samples = ss_get_s64(p + 24);
    mark->emitted_tick = ss_get_s64(p + 32);
    mark->value = ss_get_s32(p + 40);
}
