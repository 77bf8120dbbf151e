/* SPDX-License-Identifier: MIT */
#include "sensorsim_payloads.h"

#include <string.h>

#define LARGEST_MANTISSA 2045u

/* ---- Numbers ---- */

ss_sfloat ss_sfloat_from_milli(int32_t milli, int exponent) {
    uint32_t magnitude = milli < 0 ? 0u - (uint32_t)milli : (uint32_t)milli;
    uint32_t mantissa = magnitude, by = 1;
    int at = -3; /* thousandths */
    /* Finer than thousandths: as far as the mantissa allows. */
    while (at > exponent && mantissa * 10u <= LARGEST_MANTISSA && mantissa <= LARGEST_MANTISSA) {
        mantissa *= 10u;
        at--;
    }
    /* Coarser: always from the value itself, so that it is rounded once. */
    while (at < exponent || mantissa > LARGEST_MANTISSA) {
        if (by >= 1000000000u) {
            mantissa = 0;
            at = exponent;
            break;
        }
        at++;
        by *= 10u;
        mantissa = magnitude / by + (magnitude % by >= by / 2 ? 1u : 0u);
    }
    if (milli < 0) {
        mantissa = 0u - mantissa;
    }
    return (ss_sfloat)((((unsigned)at & 15u) << 12) | (mantissa & 0xFFFu));
}

int ss_sfloat_to_milli(ss_sfloat number, int32_t *milli) {
    int mantissa = number & 0xFFF, exponent = number >> 12;
    uint32_t magnitude, by = 1;
    if (number >= SS_SFLOAT_POSITIVE_INFINITY && number <= SS_SFLOAT_NEGATIVE_INFINITY) {
        return 0;
    }
    mantissa = mantissa >= 0x800 ? mantissa - 0x1000 : mantissa;
    exponent = exponent >= 8 ? exponent - 16 : exponent;
    magnitude = (uint32_t)(mantissa < 0 ? -mantissa : mantissa);
    for (; exponent > -3; exponent--) {
        if (magnitude > 0x7FFFFFFFu / 10u) {
            return 0;
        }
        magnitude *= 10u;
    }
    for (; exponent < -3; exponent++) {
        by *= 10u;
    }
    magnitude = magnitude / by + (by > 1 && magnitude % by >= by / 2 ? 1u : 0u);
    *milli = mantissa < 0 ? -(int32_t)magnitude : (int32_t)magnitude;
    return 1;
}

uint16_t ss_payload_interval(uint32_t microseconds) {
    /* 1024 / 10^6 is 16 / 15625. */
    return microseconds > 63900000u ? 0xFFFFu : (uint16_t)((microseconds / 15625u) * 16u + ((microseconds % 15625u) * 16u + 7812u) / 15625u);
}

/* ---- Fields ---- */

typedef struct {
    const uint8_t *at;
    size_t left;
    int is_short;
} field_reader;

static unsigned get8(field_reader *r) {
    if (r->left < 1) {
        r->is_short = 1;
        r->left = 0;
        return 0;
    }
    r->left--;
    return *r->at++;
}

static uint16_t get16(field_reader *r) {
    unsigned low;
    if (r->left < 2) {
        r->is_short = 1;
        r->left = 0;
        return 0;
    }
    low = get8(r);
    return (uint16_t)(low | (get8(r) << 8));
}

static uint32_t get24(field_reader *r) {
    uint32_t low = get16(r);
    return low | ((uint32_t)get8(r) << 16);
}

static ss_device_time get_time(field_reader *r) {
    ss_device_time t;
    t.year = get16(r);
    t.month = (uint8_t)get8(r);
    t.day = (uint8_t)get8(r);
    t.hour = (uint8_t)get8(r);
    t.minute = (uint8_t)get8(r);
    t.second = (uint8_t)get8(r);
    return t;
}

static int is_time(const ss_device_time *t) {
    return (t->year == 0 || (t->year >= 1582 && t->year <= 9999)) && t->month <= 12 && t->day <= 31 && t->hour <= 23 && t->minute <= 59 &&
           t->second <= 59;
}

static ss_oximeter_pair get_pair(field_reader *r) {
    ss_oximeter_pair pair;
    pair.saturation = get16(r);
    pair.pulse_rate = get16(r);
    return pair;
}

static field_reader begin(const uint8_t *value, size_t length) {
    field_reader r;
    r.at = value;
    r.left = length;
    r.is_short = 0;
    return r;
}

static int is_whole(const field_reader *r) { return !r->is_short && r->left == 0; }

static uint8_t *put16(uint8_t *at, unsigned number) {
    at[0] = (uint8_t)number;
    at[1] = (uint8_t)(number >> 8);
    return at + 2;
}

static uint8_t *put24(uint8_t *at, uint32_t number) {
    at[2] = (uint8_t)(number >> 16);
    return put16(at, (unsigned)(number & 0xFFFFu)) + 1;
}

static uint8_t *put_time(uint8_t *at, const ss_device_time *t) {
    at = put16(at, t->year);
    at[0] = t->month;
    at[1] = t->day;
    at[2] = t->hour;
    at[3] = t->minute;
    at[4] = t->second;
    return at + 5;
}

static uint8_t *put_pair(uint8_t *at, const ss_oximeter_pair *pair) { return put16(put16(at, pair->saturation), pair->pulse_rate); }

static unsigned flag(unsigned is_set, unsigned bit) { return is_set ? 1u << bit : 0u; }

/* ---- Heart Rate Measurement ---- */

static int is_wide(const ss_heart_rate *x) { return x->is_wide || x->rate_bpm > 255; }

unsigned ss_payload_interval_room(const ss_heart_rate *x, size_t room) {
    size_t used = 1u + (is_wide(x) ? 2u : 1u) + (x->has_energy ? 2u : 0u), fit = room > used ? (room - used) / 2 : 0;
    return (unsigned)(fit < SS_HEART_RATE_INTERVALS ? fit : SS_HEART_RATE_INTERVALS);
}

int ss_payload_read_heart_rate(const uint8_t *value, size_t length, ss_heart_rate *x) {
    field_reader r = begin(value, length);
    unsigned flags = get8(&r);
    memset(x, 0, sizeof *x);
    x->is_wide = (uint8_t)(flags & 1u);
    x->rate_bpm = (uint16_t)(x->is_wide ? get16(&r) : get8(&r));
    x->contact = (uint8_t)((flags & 4u) == 0 ? SS_CONTACT_NOT_TOLD : (flags & 2u) != 0 ? SS_CONTACT_YES : SS_CONTACT_NO);
    x->has_energy = (flags & 8u) != 0;
    x->energy_kj = x->has_energy ? get16(&r) : 0;
    while ((flags & 16u) != 0 && r.left >= 2 && x->interval_count < SS_HEART_RATE_INTERVALS) {
        x->intervals[x->interval_count++] = get16(&r);
    }
    return is_whole(&r);
}

size_t ss_payload_write_heart_rate(const ss_heart_rate *x, uint8_t *value, size_t room) {
    unsigned count = ss_payload_interval_room(x, room), i;
    uint8_t *at = value + 1;
    count = x->interval_count < count ? x->interval_count : count;
    value[0] = (uint8_t)(flag((unsigned)is_wide(x), 0) | flag(x->contact == SS_CONTACT_YES, 1) | flag(x->contact != SS_CONTACT_NOT_TOLD, 2) |
                         flag(x->has_energy, 3) | flag(count, 4));
    *at = (uint8_t)x->rate_bpm;
    at = is_wide(x) ? put16(at, x->rate_bpm) : at + 1;
    at = x->has_energy ? put16(at, x->energy_kj) : at;
    for (i = 0; i < count; i++) {
        at = put16(at, x->intervals[i]);
    }
    return (size_t)(at - value);
}

/* ---- Pulse oximeter ---- */

int ss_payload_read_spot_check(const uint8_t *value, size_t length, ss_spot_check *x) {
    field_reader r = begin(value, length);
    unsigned flags = get8(&r);
    memset(x, 0, sizeof *x);
    x->has_time = flags & 1u;
    x->has_status = (flags & 2u) != 0;
    x->has_device_status = (flags & 4u) != 0;
    x->has_amplitude = (flags & 8u) != 0;
    x->is_clock_unset = (flags & 16u) != 0;
    x->normal = get_pair(&r);
    if (x->has_time) {
        x->time = get_time(&r);
    }
    x->status = x->has_status ? get16(&r) : 0;
    x->device_status = x->has_device_status ? get24(&r) : 0;
    x->amplitude = x->has_amplitude ? get16(&r) : 0;
    return is_whole(&r) && is_time(&x->time);
}

size_t ss_payload_write_spot_check(const ss_spot_check *x, uint8_t *value) {
    uint8_t *at = put_pair(value + 1, &x->normal);
    value[0] = (uint8_t)(flag(x->has_time, 0) | flag(x->has_status, 1) | flag(x->has_device_status, 2) | flag(x->has_amplitude, 3) |
                         flag(x->is_clock_unset, 4));
    at = x->has_time ? put_time(at, &x->time) : at;
    at = x->has_status ? put16(at, x->status) : at;
    at = x->has_device_status ? put24(at, x->device_status) : at;
    at = x->has_amplitude ? put16(at, x->amplitude) : at;
    return (size_t)(at - value);
}

int ss_payload_read_continuous(const uint8_t *value, size_t length, ss_continuous *x) {
    field_reader r = begin(value, length);
    unsigned flags = get8(&r);
    memset(x, 0, sizeof *x);
    x->has_fast = flags & 1u;
    x->has_slow = (flags & 2u) != 0;
    x->has_status = (flags & 4u) != 0;
    x->has_device_status = (flags & 8u) != 0;
    x->has_amplitude = (flags & 16u) != 0;
    x->normal = get_pair(&r);
    if (x->has_fast) {
        x->fast = get_pair(&r);
    }
    if (x->has_slow) {
        x->slow = get_pair(&r);
    }
    x->status = x->has_status ? get16(&r) : 0;
    x->device_status = x->has_device_status ? get24(&r) : 0;
    x->amplitude = x->has_amplitude ? get16(&r) : 0;
    return is_whole(&r);
}

size_t ss_payload_write_continuous(const ss_continuous *x, uint8_t *value) {
    uint8_t *at = put_pair(value + 1, &x->normal);
    value[0] = (uint8_t)(flag(x->has_fast, 0) | flag(x->has_slow, 1) | flag(x->has_status, 2) | flag(x->has_device_status, 3) |
                         flag(x->has_amplitude, 4));
    at = x->has_fast ? put_pair(at, &x->fast) : at;
    at = x->has_slow ? put_pair(at, &x->slow) : at;
    at = x->has_status ? put16(at, x->status) : at;
    at = x->has_device_status ? put24(at, x->device_status) : at;
    at = x->has_amplitude ? put16(at, x->amplitude) : at;
    return (size_t)(at - value);
}

/* ---- Blood Pressure Measurement ---- */

int ss_payload_read_blood_pressure(const uint8_t *value, size_t length, ss_blood_pressure *x) {
    field_reader r = begin(value, length);
    unsigned flags = get8(&r);
    memset(x, 0, sizeof *x);
    x->is_in_kilopascal = flags & 1u;
    x->has_time = (flags & 2u) != 0;
    x->has_pulse_rate = (flags & 4u) != 0;
    x->has_user = (flags & 8u) != 0;
    x->has_status = (flags & 16u) != 0;
    x->systolic = get16(&r);
    x->diastolic = get16(&r);
    x->mean = get16(&r);
    if (x->has_time) {
        x->time = get_time(&r);
    }
    x->pulse_rate = x->has_pulse_rate ? get16(&r) : 0;
    x->user = (uint8_t)(x->has_user ? get8(&r) : 0);
    x->status = x->has_status ? get16(&r) : 0;
    return is_whole(&r) && is_time(&x->time);
}

size_t ss_payload_write_blood_pressure(const ss_blood_pressure *x, uint8_t *value) {
    uint8_t *at = put16(put16(put16(value + 1, x->systolic), x->diastolic), x->mean);
    value[0] = (uint8_t)(flag(x->is_in_kilopascal, 0) | flag(x->has_time, 1) | flag(x->has_pulse_rate, 2) | flag(x->has_user, 3) |
                         flag(x->has_status, 4));
    at = x->has_time ? put_time(at, &x->time) : at;
    at = x->has_pulse_rate ? put16(at, x->pulse_rate) : at;
    if (x->has_user) {
        *at++ = x->user;
    }
    at = x->has_status ? put16(at, x->status) : at;
    return (size_t)(at - value);
}
