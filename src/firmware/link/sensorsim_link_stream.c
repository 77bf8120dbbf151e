/* SPDX-License-Identifier: MIT */
/* Payloads of the stream: its format and its samples. */
#include <string.h>

#include "sensorsim_link.h"
#include "sensorsim_link_bytes.h"

#define SAMPLES_BYTES 16u
#define SECTION_BYTES 4u

/* ---- Format ---- */

static uint32_t common_divisor(uint32_t a, uint32_t b) {
    while (b != 0) {
        uint32_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* A binary64 above 0 that is finite. */
static int is_positive(const uint8_t *p) {
    static const uint8_t zeros[8] = {0};
    return memcmp(p, zeros, sizeof zeros) != 0 && (p[7] & 0x80u) == 0 && !(p[7] == 0x7Fu && (p[6] & 0xF0u) == 0xF0u);
}

static int is_channel(const uint8_t *p) {
    uint32_t rate = ss_get32(p + 4);
    int64_t delay256 = ss_get_s64(p + 24);
    int32_t zero_code = ss_get_s32(p + 12);
    if (zero_code < -SS_LINK_MAX_ZERO_CODE || zero_code > SS_LINK_MAX_ZERO_CODE) {
        return 0;
    }
    if (delay256 < -SS_LINK_MAX_DELAY256 || delay256 > SS_LINK_MAX_DELAY256) {
        return 0;
    }
    return p[0] < SS_LINK_MAX_CHANNELS && p[1] >= 4 && p[1] <= 24 && rate >= 1 && rate <= 0x7FFFFFFFu && (is_positive(p + 40) || ss_get_s32(p + 16) > 0);
}

/* All channels together: ascending, and the clock is the lowest common multiple of the rates (then the steps have no common divisor). */
static int is_stream(const ss_link_format *format, const uint8_t *payload) {
    unsigned first = payload[5], here = payload[6], i;
    uint32_t ticks = ss_get32(payload), divisor = 0;
    const uint8_t *before = NULL;
    if (ticks > 1000000000u) {
        return 0;
    }
    for (i = 0; i < payload[4]; i++) {
        const uint8_t *p = i >= first && i < first + here ? payload + 8 + (SS_LINK_CHANNEL_BYTES * (i - first)) : format->channels[i];
        if ((before != NULL && p[0] <= before[0]) || (uint64_t)ss_get32(p + 4) * ss_get32(p + 8) != ticks) {
            return 0;
        }
        divisor = common_divisor(ss_get32(p + 8), divisor);
        before = p;
    }
    return divisor == 1;
}

int ss_link_read_format(const uint8_t *payload, size_t length, ss_link_format *format) {
    unsigned first, here, i, told, all;
    if (length < 8) {
        return 0;
    }
    first = payload[5];
    here = payload[6];
    if (payload[4] < 1 || payload[4] > SS_LINK_MAX_CHANNELS || here < 1 || here > SS_LINK_CHANNELS_EACH || first + here > payload[4] ||
        length != 8 + (SS_LINK_CHANNEL_BYTES * (size_t)here)) {
        return 0;
    }
    if (format->told != 0 && (format->channel_count != payload[4] || format->ticks_per_second != ss_get32(payload))) {
        return 0;
    }
    told = format->told;
    for (i = 0; i < here; i++) {
        const uint8_t *p = payload + 8 + (SS_LINK_CHANNEL_BYTES * i);
        if (!is_channel(p) || (((unsigned)format->told >> (first + i)) & 1u && memcmp(p, format->channels[first + i], SS_LINK_CHANNEL_BYTES) != 0)) {
            return 0;
        }
        told |= 1u << (first + i);
    }
    all = (1u << payload[4]) - 1;
    if (told == all && !is_stream(format, payload)) {
        return 0;
    }
    format->ticks_per_second = ss_get32(payload);
    format->channel_count = payload[4];
    format->told = (uint8_t)told;
    memcpy(format->channels[first], payload + 8, SS_LINK_CHANNEL_BYTES * here);
    return 1;
}

int ss_link_format_is_complete(const ss_link_format *format) {
    return format->channel_count != 0 && format->told == (uint8_t)((1u << format->channel_count) - 1);
}

void ss_link_get_channel(const ss_link_format *format, unsigned channel, ss_link_channel *out) {
    const uint8_t *p = format->channels[channel];
    out->name = p[0];
    out->bits = p[1];
    out->is_signed = p[2] & 1u;
    out->falls = (uint8_t)((p[2] >> 1) & 1u);
    out->device = p[3];
    out->rate_hz = ss_get32(p + 4);
    out->ticks_per_sample = ss_get32(p + 8);
    out->zero_code = ss_get_s32(p + 12);
    out->codes_per_unit256 = ss_get_s32(p + 16);
    out->delay256 = ss_get_s64(p + 24);
    out->delay_ns = ss_get_s64(p + 32);
    memcpy(out->unit_per_code, p + 40, sizeof out->unit_per_code);
}

void ss_link_set_channel(ss_link_format *format, unsigned channel, const ss_link_channel *in) {
    uint8_t *p = format->channels[channel];
    memset(p, 0, SS_LINK_CHANNEL_BYTES);
    p[0] = in->name;
    p[1] = in->bits;
    p[2] = (uint8_t)((in->is_signed ? 1 : 0) | (in->falls ? 2 : 0));
    p[3] = in->device;
    ss_put32(p + 4, in->rate_hz);
    ss_put32(p + 8, in->ticks_per_sample);
    ss_put32(p + 12, (uint32_t)in->zero_code);
    ss_put32(p + 16, (uint32_t)in->codes_per_unit256);
    ss_put_s64(p + 24, in->delay256);
    ss_put_s64(p + 32, in->delay_ns);
    memcpy(p + 40, in->unit_per_code, sizeof in->unit_per_code);
    format->told = (uint8_t)(format->told | (1u << channel));
}

size_t ss_link_write_format(const ss_link_format *format, unsigned number, uint8_t *payload) {
    unsigned first = number * SS_LINK_CHANNELS_EACH, here;
    if (first >= format->channel_count) {
        return 0;
    }
    here = format->channel_count - first;
    here = here > SS_LINK_CHANNELS_EACH ? SS_LINK_CHANNELS_EACH : here;
    ss_put32(payload, format->ticks_per_second);
    payload[4] = format->channel_count;
    payload[5] = (uint8_t)first;
    payload[6] = (uint8_t)here;
    payload[7] = 0;
    memcpy(payload + 8, format->channels[first], SS_LINK_CHANNEL_BYTES * here);
    return 8 + (SS_LINK_CHANNEL_BYTES * (size_t)here);
}

/* ---- Samples ---- */

static size_t status_bytes(unsigned mode, unsigned count) { return mode == 0 ? 0u : mode == 1 ? 2u : 2u * (size_t)count; }

static size_t code_bytes(unsigned count, unsigned bits) { return (((size_t)count * bits) + 7u) / 8u; }

/* Index of the first sample at or after a tick. A small core divides 32 bits in a seventh of the time that 64 bits take. */
static int64_t index_at(int64_t tick, uint32_t step) {
    if (((uint64_t)tick >> 32) == 0) {
        uint32_t small = (uint32_t)tick;
        uint32_t index = small / step;
        return (int64_t)index + (index * step != small ? 1 : 0);
    }
    return (int64_t)(((uint64_t)tick + step - 1) / step);
}

unsigned ss_link_read_samples(const ss_link_format *format, const uint8_t *payload, size_t length, ss_link_samples *samples) {
    size_t at = SAMPLES_BYTES;
    int last = -1;
    unsigned i;
    if (length < SAMPLES_BYTES) {
        return SS_LINK_WRONG_CONTENT;
    }
    samples->begin_tick = ss_get_s64(payload);
    samples->ticks = ss_get32(payload + 8);
    samples->sections = payload[12];
    samples->wants_progress = payload[13] & 1u;
    samples->next = payload + SAMPLES_BYTES;
    samples->left = payload[12];
    if (!ss_is_tick(samples->begin_tick) || samples->ticks > (format->ticks_per_second + 9) / 10 || (samples->ticks == 0 && samples->sections != 0)) {
        return SS_LINK_WRONG_CONTENT;
    }
    for (i = 0; i < samples->sections; i++) {
        const uint8_t *p = payload + at;
        uint32_t step;
        int64_t last_index;
        if (length - at < SECTION_BYTES) {
            return SS_LINK_WRONG_CONTENT;
        }
        if (p[0] >= format->channel_count) {
            return SS_LINK_NO_SUCH_CHANNEL;
        }
        if (p[0] <= last || p[1] > 2 || p[2] == 0) {
            return SS_LINK_WRONG_CONTENT;
        }
        step = ss_get32(format->channels[p[0]] + 8);
        last_index = index_at(samples->begin_tick, step) + p[3] + p[2] - 1;
        last = p[0];
        at += SECTION_BYTES + status_bytes(p[1], p[2]) + code_bytes(p[2], format->channels[p[0]][1]);
        if (at > length || last_index * step >= samples->begin_tick + samples->ticks) {
            return SS_LINK_WRONG_CONTENT;
        }
    }
    return at == length ? SS_LINK_NO_TROUBLE : SS_LINK_WRONG_CONTENT;
}

int ss_link_next_section(const ss_link_format *format, ss_link_samples *samples, ss_link_section *section) {
    const uint8_t *p = samples->next;
    const uint8_t *channel;
    if (samples->left == 0) {
        return 0;
    }
    channel = format->channels[p[0]];
    section->channel = p[0];
    section->status_mode = p[1];
    section->count = p[2];
    section->gap = p[3];
    section->bits = channel[1];
    section->is_signed = channel[2] & 1u;
    section->first_index = index_at(samples->begin_tick, ss_get32(channel + 8)) + p[3];
    section->status = p + SECTION_BYTES;
    section->codes = section->status + status_bytes(p[1], p[2]);
    samples->next = section->codes + code_bytes(p[2], section->bits);
    samples->left--;
    return 1;
}

uint16_t ss_link_status(const ss_link_section *section, unsigned i) {
    return section->status_mode == 0 ? 0 : ss_get16(section->status + (section->status_mode == 1 ? 0 : 2 * (size_t)i));
}

void ss_link_begin_codes(const ss_link_section *section, ss_link_codes *codes) {
    codes->at = section->codes;
    codes->waiting = 0;
    codes->filled = 0;
    codes->bits = section->bits;
    codes->is_signed = section->is_signed;
}

/* At most 7 bits wait when a code of 24 begins: 31 fit. */
int32_t ss_link_next_code(ss_link_codes *codes) {
    unsigned bits = codes->bits, filled = codes->filled;
    uint32_t waiting = codes->waiting, code;
    while (filled < bits) {
        waiting |= (uint32_t)*codes->at++ << filled;
        filled += 8;
    }
    code = waiting & ((1u << bits) - 1);
    codes->waiting = waiting >> bits;
    codes->filled = (uint8_t)(filled - bits);
    if (codes->is_signed && (code >> (bits - 1)) != 0) {
        return (int32_t)code - (int32_t)(1u << bits);
    }
    return (int32_t)code;
}

size_t ss_link_begin_samples(int64_t begin_tick, uint32_t ticks, int wants_progress, uint8_t *payload) {
    ss_put_s64(payload, begin_tick);
    ss_put32(payload + 8, ticks);
    payload[12] = 0;
    payload[13] = wants_progress ? 1 : 0;
    ss_put16(payload + 14, 0);
    return SAMPLES_BYTES;
}

static unsigned mode_of(const uint16_t *status, unsigned count) {
    unsigned i;
    if (status == NULL) {
        return 0;
    }
    for (i = 1; i < count; i++) {
        if (status[i] != status[0]) {
            return 2;
        }
    }
    return status[0] == 0 ? 0 : 1;
}

size_t ss_link_add_section(uint8_t *payload, size_t length, uint8_t channel, uint8_t bits, uint8_t gap, const int32_t *codes, const uint16_t *status,
                           unsigned count) {
    unsigned mode = mode_of(status, count), words = mode == 2 ? count : mode, filled = 0, i;
    uint32_t waiting = 0, mask = (1u << bits) - 1;
    uint8_t *p = payload + length;
    if (count < 1 || count > 255 || length + SECTION_BYTES + status_bytes(mode, count) + code_bytes(count, bits) > SS_LINK_MAX_PAYLOAD) {
        return 0;
    }
    *p++ = channel;
    *p++ = (uint8_t)mode;
    *p++ = (uint8_t)count;
    *p++ = gap;
    for (i = 0; i < words; i++) {
        ss_put16(p, status[i]);
        p += 2;
    }
    for (i = 0; i < count; i++) {
        waiting |= ((uint32_t)codes[i] & mask) << filled;
        for (filled += bits; filled >= 8; filled -= 8) {
            *p++ = (uint8_t)waiting;
            waiting >>= 8;
        }
    }
    if (filled > 0) {
        *p++ = (uint8_t)waiting;
    }
    payload[12]++;
    return (size_t)(p - payload);
}
