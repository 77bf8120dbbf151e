/* SPDX-License-Identifier: MIT */
/* Lets a test call the values of characteristics in C: what a value says as text, as in known-answers.txt, and the value made again. */
#include <stdio.h>
#include <string.h>

#include "sensorsim_payloads.h"

int32_t shim_value(int32_t characteristic, const uint8_t *value, int32_t length, uint8_t *text, uint8_t *again);
int32_t shim_sfloat(int32_t milli, int32_t exponent);
int32_t shim_milli(int32_t raw, int32_t *milli);
int32_t shim_interval(uint32_t microseconds);

int32_t shim_sfloat(int32_t milli, int32_t exponent) { return ss_sfloat_from_milli(milli, exponent); }

int32_t shim_milli(int32_t raw, int32_t *milli) { return ss_sfloat_to_milli((ss_sfloat)raw, milli); }

int32_t shim_interval(uint32_t microseconds) { return ss_payload_interval(microseconds); }

static char *out;

static void number(const char *name, int is_there, ss_sfloat n) {
    int mantissa = (n & 0xFFF) >= 0x800 ? (n & 0xFFF) - 0x1000 : (n & 0xFFF);
    int exponent = (n >> 12) >= 8 ? (n >> 12) - 16 : (n >> 12);
    const char *special = n == SS_SFLOAT_NAN                 ? "nan"
                          : n == SS_SFLOAT_NOT_AT_RESOLUTION ? "nres"
                          : n == SS_SFLOAT_POSITIVE_INFINITY ? "+inf"
                          : n == SS_SFLOAT_NEGATIVE_INFINITY ? "-inf"
                          : n == 0x0801                      ? "reserved"
                                                             : NULL;
    out += sprintf(out, "%s", name);
    out += !is_there ? sprintf(out, "-") : special != NULL ? sprintf(out, "%s", special) : sprintf(out, "%dE%d", mantissa, exponent);
}

static void pair(const char *name, int is_there, ss_oximeter_pair p) {
    if (!is_there) {
        out += sprintf(out, "%s-", name);
    } else {
        number(name, 1, p.saturation);
        number("/", 1, p.pulse_rate);
    }
}

static void time_text(int is_there, ss_device_time t) {
    out += is_there ? sprintf(out, " time=%d-%d-%dT%d:%d:%d", t.year, t.month, t.day, t.hour, t.minute, t.second) : sprintf(out, " time=-");
}

static void bits(const char *name, int is_there, unsigned digits, uint32_t value) {
    out += is_there ? sprintf(out, "%s%0*X", name, (int)digits, (unsigned)value) : sprintf(out, "%s-", name);
}

static size_t heart_rate(const uint8_t *value, size_t length, uint8_t *again) {
    ss_heart_rate x;
    unsigned i;
    if (!ss_payload_read_heart_rate(value, length, &x)) {
        return 0;
    }
    out += sprintf(out, "rate=%d wide=%s contact=%s energy=", x.rate_bpm, x.is_wide ? "yes" : "no",
                   x.contact == SS_CONTACT_NOT_TOLD ? "-" : x.contact == SS_CONTACT_YES ? "yes" : "no");
    out += x.has_energy ? sprintf(out, "%d intervals=", x.energy_kj) : sprintf(out, "- intervals=");
    for (i = 0; i < x.interval_count; i++) {
        out += sprintf(out, i == 0 ? "%d" : ",%d", x.intervals[i]);
    }
    out += x.interval_count == 0 ? sprintf(out, "-") : 0;
    return ss_payload_write_heart_rate(&x, again, 23);
}

static size_t spot_check(const uint8_t *value, size_t length, uint8_t *again) {
    ss_spot_check x;
    if (!ss_payload_read_spot_check(value, length, &x)) {
        return 0;
    }
    number("spo2=", 1, x.normal.saturation);
    number(" rate=", 1, x.normal.pulse_rate);
    time_text(x.has_time, x.time);
    bits(" status=", x.has_status, 4, x.status);
    bits(" device=", x.has_device_status, 6, x.device_status);
    number(" amplitude=", x.has_amplitude, x.amplitude);
    out += sprintf(out, " unset=%s", x.is_clock_unset ? "yes" : "no");
    return ss_payload_write_spot_check(&x, again);
}

static size_t continuous(const uint8_t *value, size_t length, uint8_t *again) {
    ss_continuous x;
    if (!ss_payload_read_continuous(value, length, &x)) {
        return 0;
    }
    number("spo2=", 1, x.normal.saturation);
    number(" rate=", 1, x.normal.pulse_rate);
    pair(" fast=", x.has_fast, x.fast);
    pair(" slow=", x.has_slow, x.slow);
    bits(" status=", x.has_status, 4, x.status);
    bits(" device=", x.has_device_status, 6, x.device_status);
    number(" amplitude=", x.has_amplitude, x.amplitude);
    return ss_payload_write_continuous(&x, again);
}

static size_t blood_pressure(const uint8_t *value, size_t length, uint8_t *again) {
    ss_blood_pressure x;
    if (!ss_payload_read_blood_pressure(value, length, &x)) {
        return 0;
    }
    number("systolic=", 1, x.systolic);
    number(" diastolic=", 1, x.diastolic);
    number(" mean=", 1, x.mean);
    out += sprintf(out, " kpa=%s", x.is_in_kilopascal ? "yes" : "no");
    time_text(x.has_time, x.time);
    number(" rate=", x.has_pulse_rate, x.pulse_rate);
    out += x.has_user ? sprintf(out, " user=%d", x.user) : sprintf(out, " user=-");
    bits(" status=", x.has_status, 4, x.status);
    return ss_payload_write_blood_pressure(&x, again);
}

/* Returns the bytes of the value made again, 0 when it is refused; text ends with a zero. One thread at a time. */
int32_t shim_value(int32_t characteristic, const uint8_t *value, int32_t length, uint8_t *text, uint8_t *again) {
    size_t count = (size_t)length, made;
    out = (char *)text;
    made = characteristic == 0x2A37   ? heart_rate(value, count, again)
           : characteristic == 0x2A5E ? spot_check(value, count, again)
           : characteristic == 0x2A5F ? continuous(value, count, again)
                                      : blood_pressure(value, count, again);
    *out = 0;
    return (int32_t)made;
}
