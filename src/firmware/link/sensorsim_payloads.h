/* SPDX-License-Identifier: MIT */
/*
 * Values of four characteristics of the Bluetooth SIG, read and made: Heart Rate Measurement (2A37), PLX Spot-check (2A5E) and
 * Continuous (2A5F) Measurement, Blood Pressure Measurement (2A35). Integers only, nothing of the C library but memset.
 *
 * ss_payload_read_X returns 1 when the bytes are an X, to the last one, else 0. ss_payload_write_X returns the bytes written.
 */
#ifndef SENSORSIM_PAYLOADS_H
#define SENSORSIM_PAYLOADS_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A number of 16 bits, mantissa * 10^exponent: SFLOAT of IEEE 11073-20601. The exponent stands in the upper 4 bits, the mantissa in the
 * lower 12, both two's complement. */
typedef uint16_t ss_sfloat;

#define SS_SFLOAT_NAN ((ss_sfloat)0x07FFu)                /* not measured, or not known */
#define SS_SFLOAT_NOT_AT_RESOLUTION ((ss_sfloat)0x0800u)
#define SS_SFLOAT_POSITIVE_INFINITY ((ss_sfloat)0x07FEu)
#define SS_SFLOAT_NEGATIVE_INFINITY ((ss_sfloat)0x0802u)

/* A value in thousandths at the resolution of its sensor (exponent -8 to 7; -1 for tenths), and coarser only where it would not fit;
 * halves are rounded away from zero. Never one of the special values: mantissas stay within 2045. */
ss_sfloat ss_sfloat_from_milli(int32_t milli, int exponent);

/* The value in thousandths, halves rounded away from zero; returns 1 when it is a number and fits. */
int ss_sfloat_to_milli(ss_sfloat number, int32_t *milli);

/* Local date and time; 0 in year, month or day: not known. */
typedef struct ss_device_time {
    uint16_t year; /* 1582 to 9999 */
    uint8_t month;
    uint8_t day;
    uint8_t hour;
    uint8_t minute;
    uint8_t second;
} ss_device_time;

#define SS_PAYLOAD_ROOM 20u /* bytes of a value on a connection that has not agreed on more */
#define SS_HEART_RATE_INTERVALS 9u /* RR intervals that fit into it */

enum ss_contact { SS_CONTACT_NOT_TOLD = 0, SS_CONTACT_NO = 1, SS_CONTACT_YES = 2 };

typedef struct ss_heart_rate {
    uint16_t rate_bpm;
    uint8_t is_wide; /* the rate takes two bytes though one would do */
    uint8_t contact; /* enum ss_contact */
    uint8_t has_energy;
    uint8_t interval_count;
    uint16_t energy_kj;
    uint16_t intervals[SS_HEART_RATE_INTERVALS]; /* RR [1/1024 s], the oldest first */
} ss_heart_rate;

/* RR intervals that fit beside the rest. */
unsigned ss_payload_interval_room(const ss_heart_rate *x, size_t room);
/* A value of more intervals than there is room for is refused. */
int ss_payload_read_heart_rate(const uint8_t *value, size_t length, ss_heart_rate *x);
/* Intervals that do not fit are not written. room: at least 5. */
size_t ss_payload_write_heart_rate(const ss_heart_rate *x, uint8_t *value, size_t room);

/* RR interval in 1/1024 s from microseconds, rounded; up to 63.9 s. */
uint16_t ss_payload_interval(uint32_t microseconds);

typedef struct ss_oximeter_pair {
    ss_sfloat saturation; /* [%] */
    ss_sfloat pulse_rate; /* [bpm] */
} ss_oximeter_pair;

typedef struct ss_spot_check {
    ss_oximeter_pair normal;
    ss_device_time time;
    uint16_t status;
    uint32_t device_status; /* 24 bits */
    ss_sfloat amplitude;    /* pulse amplitude index [%] */
    uint8_t has_time;
    uint8_t has_status;
    uint8_t has_device_status;
    uint8_t has_amplitude;
    uint8_t is_clock_unset;
} ss_spot_check;

int ss_payload_read_spot_check(const uint8_t *value, size_t length, ss_spot_check *x);
size_t ss_payload_write_spot_check(const ss_spot_check *x, uint8_t *value); /* at most 19 bytes */

typedef struct ss_continuous {
    ss_oximeter_pair normal;
    ss_oximeter_pair fast;
    ss_oximeter_pair slow;
    uint16_t status;
    uint32_t device_status; /* 24 bits */
    ss_sfloat amplitude;
    uint8_t has_fast;
    uint8_t has_slow;
    uint8_t has_status;
    uint8_t has_device_status;
    uint8_t has_amplitude;
} ss_continuous;

int ss_payload_read_continuous(const uint8_t *value, size_t length, ss_continuous *x);
size_t ss_payload_write_continuous(const ss_continuous *x, uint8_t *value); /* at most 20 bytes */

typedef struct ss_blood_pressure {
    ss_sfloat systolic; /* what is not known of the three is SS_SFLOAT_NAN */
    ss_sfloat diastolic;
    ss_sfloat mean;
    ss_device_time time;
    ss_sfloat pulse_rate;
    uint16_t status;
    uint8_t is_in_kilopascal;
    uint8_t has_time;
    uint8_t has_pulse_rate;
    uint8_t has_user;
    uint8_t has_status;
    uint8_t user; /* 255: unknown */
} ss_blood_pressure;

int ss_payload_read_blood_pressure(const uint8_t *value, size_t length, ss_blood_pressure *x);
size_t ss_payload_write_blood_pressure(const ss_blood_pressure *x, uint8_t *value); /* at most 19 bytes */

#ifdef __cplusplus
}
#endif

#endif
