/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "board.h"
#include "sampler.h"

enum {
    ECG = 0,
    RED = 1,
    INFRARED = 2,
    ACCEL_Z = 3,
    CHANNELS = 4,
    TICKS_PER_SECOND = 500, /* the lowest common multiple of the rates */
    STRETCH_MS = 100,
    STRETCH_TICKS = 50,
    LEAD_OFF = 1,     /* status words, as in channels.csv */
    NO_CONTACT = 128,
    PULSE_AFTER_R_MS = 180,
    R_MS = 300,
    ROUND_TICKS = 20000 /* faults come again after this time */
};

static const uint8_t names[CHANNELS] = {0, 1, 2, 7};
static const uint8_t bits[CHANNELS] = {16, 18, 18, 12};
static const uint8_t is_signed[CHANNELS] = {1, 0, 0, 1};
static const uint16_t rates[CHANNELS] = {250, 100, 100, 50};
static const int32_t codes_per_unit256[CHANNELS] = {256000, 25600, 25600, 131072};
/* 1/1000, 1/100, 1/100 and 1/512 as binary64, lowest byte first. */
static const uint8_t units_per_code[CHANNELS][8] = {
    {0xFC, 0xA9, 0xF1, 0xD2, 0x4D, 0x62, 0x50, 0x3F},
    {0x7B, 0x14, 0xAE, 0x47, 0xE1, 0x7A, 0x84, 0x3F},
    {0x7B, 0x14, 0xAE, 0x47, 0xE1, 0x7A, 0x84, 0x3F},
    {0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x60, 0x3F},
};

static ss_sampler sampler;

/* A hump of a parabola: height in the middle, 0 at both ends and outside. */
static int32_t hump(int32_t at, int32_t begin, int32_t width, int32_t height) {
    const int32_t x = at - begin;
    return x <= 0 || x >= width ? 0 : height * 4 * x / width * (width - x) / width;
}

/* Microvolts at a place of the beat [ms]: P wave, QRS complex, T wave. */
static int32_t ecg_uv(int32_t at) {
    return hump(at, R_MS - 170, 90, 120) + hump(at, R_MS - 36, 24, -90) + hump(at, R_MS - 20, 40, 1100) + hump(at, R_MS + 16, 30, -220)
        + hump(at, R_MS + 200, 170, 280);
}

/* Pulse at a place of the beat [ms], 0 to about 1000: a steep rise, a slow fall, a second hump. */
static int32_t pulse(int32_t at) {
    const int32_t x = at - R_MS - PULSE_AFTER_R_MS;
    const int32_t rise = x < 0 ? 0 : x < 130 ? hump(x, 0, 260, 1000) : x < 500 ? 1000 - (x - 130) * 1000 / 370 : 0;
    return rise + hump(x, 260, 260, 220);
}

static int32_t noise(int32_t most) {
    sampler.random = sampler.random * 1664525u + 1013904223u;
    return (int32_t)(sampler.random >> 16) % (2 * most + 1) - most;
}

static int32_t light(int32_t level, int32_t depth, int32_t at, int32_t length) {
    /* The end of a long pulse lies in the next beat. */
    return level - depth * (pulse(at) + pulse(at + length)) / 1000 + noise(8);
}

static void begin(void *context, ss_link_format *format) {
    (void)context;
    format->ticks_per_second = TICKS_PER_SECOND;
    format->channel_count = CHANNELS;
    for (unsigned c = 0; c < CHANNELS; c++) {
        ss_link_channel channel = {0};
        channel.name = names[c];
        channel.bits = bits[c];
        channel.is_signed = is_signed[c];
        channel.rate_hz = rates[c];
        channel.ticks_per_sample = TICKS_PER_SECOND / rates[c];
        channel.codes_per_unit256 = codes_per_unit256[c];
        for (unsigned i = 0; i < sizeof channel.unit_per_code; i++) {
            channel.unit_per_code[i] = units_per_code[c][i];
        }
        ss_link_set_channel(format, c, &channel);
    }
    const ss_sampler fresh = {.last_us = ss_port_clock_us(), .beat_length = 820, .random = 1};
    sampler = fresh;
}

static int32_t code_of(int channel, int32_t at, int32_t length) {
    switch (channel) {
    case ECG:
        return ecg_uv(at) + noise(12);
    case RED:
        return light(90000, 500, at, length);
    case INFRARED:
        return light(120000, 1100, at, length);
    default:
        return 512 + noise(3);
    }
}

/* One stretch of a tenth of a second, once its time has come. */
static int next(void *context, int32_t *codes, uint16_t *status, ss_board_captured *captured) {
    (void)context;
    const uint32_t now = ss_port_clock_us();
    sampler.elapsed_us += now - sampler.last_us;
    sampler.last_us = now;
    if (sampler.elapsed_us < (uint64_t)(sampler.tick + STRETCH_TICKS) * (1000000u / TICKS_PER_SECOND)) {
        return 0;
    }
    const uint32_t in_round = (uint32_t)(sampler.tick % ROUND_TICKS) * (1000u / TICKS_PER_SECOND);
    /* Every 40 s: 0.5 s lead-off, 0.5 s without contact, 0.3 s of ECG and light lost on the way. */
    const int is_lead_off = in_round >= 20000 && in_round < 20500;
    const int is_no_contact = in_round >= 26000 && in_round < 26500;
    const int is_lost = in_round >= 32000 && in_round < 32300;
    captured->begin_tick = sampler.tick;
    captured->ticks = STRETCH_TICKS;
    uint16_t place = 0;
    for (int c = 0; c < CHANNELS; c++) {
        const uint32_t step_ms = 1000u / rates[c];
        const uint8_t count = (uint8_t)(STRETCH_MS / step_ms);
        const int is_gone = is_lost && c != ACCEL_Z;
        captured->channels[c].place = place;
        captured->channels[c].gap = 0;
        captured->channels[c].count = is_gone ? 0 : count;
        for (uint8_t i = 0; i < count && !is_gone; i++) {
            uint32_t at = sampler.beat_ms + i * step_ms;
            uint32_t length = sampler.beat_length;
            if (at >= length) {
                at -= length;
            }
            codes[place] = code_of(c, (int32_t)at, (int32_t)length);
            status[place] = (uint16_t)(c == ECG && is_lead_off ? LEAD_OFF : (c == RED || c == INFRARED) && is_no_contact ? NO_CONTACT : 0);
            place++;
        }
    }
    sampler.tick += STRETCH_TICKS;
    sampler.beat_ms += STRETCH_MS;
    if (sampler.beat_ms >= sampler.beat_length) {
        sampler.beat_ms -= sampler.beat_length;
        /* The next beat is a little longer or shorter, as with breathing. */
        sampler.beat_length = (uint32_t)(820 + noise(50));
    }
    return 1;
}

const ss_board_source ss_sampler_source = {NULL, begin, next};
