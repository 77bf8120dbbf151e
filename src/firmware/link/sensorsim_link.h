/* SPDX-License-Identifier: MIT */
/*
 * The link protocol of docs/link-protocol.md in C99: frames in both directions and every payload, for a board and for a host.
 * No memory is taken, no floating point, nothing of the C library but memcpy, memset and memcmp. Nothing here is global: each
 * direction of a link has a state of its own.
 *
 * Sending: put the payload where ss_link_payload says, then ss_link_seal makes the frame around it in place.
 * Receiving: give each byte to ss_link_take, or many to ss_link_read; look at the payload before the next call.
 *
 * Functions ss_link_read_X look at everything and return 1 when the payload is an X, else 0; the outputs mean nothing then. Functions
 * ss_link_write_X return the bytes of the payload; room for SS_LINK_MAX_PAYLOAD bytes always does. Text is no C string: it has a
 * length and no final zero; what does not fit is cut at a character.
 */
#ifndef SENSORSIM_LINK_H
#define SENSORSIM_LINK_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define SS_LINK_VERSION 1u
#define SS_LINK_MAX_PAYLOAD 240u
#define SS_LINK_MAX_BODY 252u
#define SS_LINK_WIRE_BUFFER 256u /* holds any frame with a 00 before and after it */
#define SS_LINK_MAX_CHANNELS 8u
#define SS_LINK_CHANNELS_EACH 4u /* channels in one format frame */
#define SS_LINK_CHANNEL_BYTES 48u
#define SS_LINK_MAX_MARKS 5u
#define SS_LINK_MAX_ITEMS 20u
#define SS_LINK_MARK_KINDS 46u
#define SS_LINK_SETTINGS 4u
#define SS_LINK_NOT_PAIRED 255u
#define SS_LINK_MAX_TICK ((int64_t)1 << 62)
/* Largest declared delay, either way [1/256 tick]: differences and sums with it cannot overflow. */
#define SS_LINK_MAX_DELAY256 ((int64_t)1 << 48)
/* Largest code of physical zero, either way: no difference of a code and it overflows 32 bits. */
#define SS_LINK_MAX_ZERO_CODE ((int32_t)1 << 24)

enum ss_link_type {
    SS_LINK_HELLO = 0x01,
    SS_LINK_FORMAT = 0x02,
    SS_LINK_SETUP = 0x03,
    SS_LINK_START = 0x04,
    SS_LINK_STOP = 0x05,
    SS_LINK_ASK = 0x06,
    SS_LINK_CAPTURE = 0x07,
    SS_LINK_SAMPLES = 0x10,
    SS_LINK_SETTING = 0x12,
    SS_LINK_ABOUT = 0x81,
    SS_LINK_ACCEPTED = 0x83,
    SS_LINK_PROGRESS = 0x84,
    SS_LINK_MARKS = 0x90,
    SS_LINK_REQUEST = 0x91,
    SS_LINK_LOG = 0x92,
    SS_LINK_TROUBLE = 0x93,
    SS_LINK_STOPPED = 0x95,
    SS_LINK_FIGURES = 0x96
};

enum ss_link_trouble_code {
    SS_LINK_NO_TROUBLE = 0,
    SS_LINK_UNKNOWN_TYPE = 1,
    SS_LINK_WRONG_CONTENT = 2,
    SS_LINK_WRONG_VERSION = 3,
    SS_LINK_NOT_STARTED = 4,
    SS_LINK_NO_SUCH_CHANNEL = 5,
    SS_LINK_SETUP_REFUSED = 6,
    SS_LINK_FORMAT_REFUSED = 7,
    SS_LINK_SAMPLES_TOO_EARLY = 8,
    SS_LINK_ANSWERS_LOST = 9,
    SS_LINK_BOARD_FAULT = 10
};

/* Items of a setup frame; units and meanings: the table of docs/link-protocol.md. */
enum ss_link_setup_item {
    SS_LINK_SETUP_START_S = 0x0001,
    SS_LINK_SETUP_BEAT_REFRACTORY_MS = 0x0100,
    SS_LINK_SETUP_BEAT_T_WAVE_MS = 0x0101,
    SS_LINK_SETUP_BEAT_THRESHOLD_PERCENT = 0x0102,
    SS_LINK_SETUP_PULSE_REFRACTORY_MS = 0x0103,
    SS_LINK_SETUP_PULSE_THRESHOLD_PERCENT = 0x0104,
    SS_LINK_SETUP_GATE_SHUT_MS = 0x0105,
    SS_LINK_SETUP_ECG_FAULTS_TO_OPEN = 0x0106,
    SS_LINK_SETUP_LIGHT_FAULTS_TO_OPEN = 0x0107,
    SS_LINK_SETUP_DOUBT = 0x0108,
    SS_LINK_SETUP_OXYGEN_PAIRS = 0x0200,
    SS_LINK_SETUP_OXYGEN_RATIO = 0x0201,
    SS_LINK_SETUP_OXYGEN_MILLI_PERCENT = 0x0202,
    SS_LINK_SETUP_PRESSURE_POINTS = 0x0300,
    SS_LINK_SETUP_PRESSURE_MODEL = 0x0301,
    SS_LINK_SETUP_PRESSURE_SLOPE_MILLI = 0x0302,
    SS_LINK_SETUP_PRESSURE_ZETA_MICRO = 0x0303,
    SS_LINK_SETUP_PRESSURE_DIASTOLIC_SHARE_PERMILLE = 0x0304,
    SS_LINK_SETUP_PRESSURE_SYSTOLIC_PER_BPM_MILLI = 0x0305,
    SS_LINK_SETUP_PRESSURE_DIASTOLIC_PER_BPM_MILLI = 0x0306,
    SS_LINK_SETUP_PRESSURE_LONGEST_AGE_DAYS = 0x0307,
    SS_LINK_SETUP_PRESSURE_REACH_MILLI = 0x0308,
    SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI = 0x0310,
    SS_LINK_SETUP_CUFF_DIASTOLIC_MILLI = 0x0311,
    SS_LINK_SETUP_CUFF_ARRIVAL_US = 0x0312,
    SS_LINK_SETUP_CUFF_SPREAD_US = 0x0313,
    SS_LINK_SETUP_CUFF_RATE_MILLI = 0x0314,
    SS_LINK_SETUP_CUFF_TIME_S = 0x0315,
    SS_LINK_SETUP_TREND_ALLOWANCE256 = 0x0400,
    SS_LINK_SETUP_TREND_THRESHOLD256 = 0x0401,
    SS_LINK_SETUP_TREND_LEARNING_DAYS = 0x0402,
    SS_LINK_SETUP_TREND_FIRST_SD16 = 0x0403,
    SS_LINK_SETUP_TREND_FIRST_SD_DAYS = 0x0404,
    SS_LINK_SETUP_TREND_LEAST_QUALITY = 0x0405,
    SS_LINK_SETUP_TREND_PER_BPM_MILLI = 0x0406,
    SS_LINK_SETUP_TREND_REST_MARGIN_BPM = 0x0407,
    SS_LINK_SETUP_FIRST_OF_DETECTOR = 0x8000
};

/* Items of a figures frame. */
enum ss_link_figure_item {
    SS_LINK_FIGURE_STACK_BYTES = 1,
    SS_LINK_FIGURE_STACK_USED_BYTES = 2,
    SS_LINK_FIGURE_STATE_BYTES = 3,
    SS_LINK_FIGURE_ANSWERS_LOST = 4,
    SS_LINK_FIGURE_LONGEST_FRAME_US = 5,
    SS_LINK_FIGURE_STAGE_TIMER_TICKS = 6, /* index: stage; 0 the detector, 1 the link */
    SS_LINK_FIGURE_SAMPLES_TAKEN = 7,     /* index: channel */
    SS_LINK_FIGURE_BYTES_LOST = 8         /* received bytes that found no room */
};

/* CRC-32C of some bytes; that of "123456789" is E3069283. A table of 64 bytes; with SS_LINK_CRC_TABLE defined one of 1 kB and
 * about half the instructions. */
uint32_t ss_link_crc32c(const uint8_t *bytes, size_t count);

/* ---- Frames: sending ---- */

typedef struct ss_link_writer {
    uint32_t next_sequence; /* number of the next frame */
} ss_link_writer;

/* Where the payload of a frame goes in a buffer of SS_LINK_WIRE_BUFFER bytes. */
uint8_t *ss_link_payload(uint8_t *wire);

/* Makes the frame around a payload that stands in its place; returns where the bytes for the wire begin, and how many there are.
 * payload_length: at most SS_LINK_MAX_PAYLOAD. */
const uint8_t *ss_link_seal(ss_link_writer *writer, uint8_t type, size_t payload_length, uint8_t *wire, size_t *wire_length);

/* ---- Frames: receiving ---- */

/* Begins as all zeros. */
typedef struct ss_link_reader {
    uint32_t good;          /* frames accepted */
    uint32_t damaged;       /* stretches between two 00 that are no sound frame of this version */
    uint32_t missing;       /* numbers passed over */
    uint32_t repeated;      /* copies, and frames that come too late */
    uint32_t other_version; /* those of the damaged ones that are sound but of another version */
    uint32_t other_version_sequence;
    uint32_t last;
    uint16_t length;
    uint8_t left;  /* bytes of the group that are still to come */
    uint8_t state; /* private */
    uint8_t has_last;
    uint8_t body[SS_LINK_MAX_BODY];
} ss_link_reader;

typedef struct ss_link_frame {
    const uint8_t *payload; /* valid until the next byte is taken */
    uint32_t sequence;
    uint16_t length; /* bytes of payload */
    uint8_t type;
} ss_link_frame;

/* Takes a byte; returns 1 when it ends a frame that is accepted. */
int ss_link_take(ss_link_reader *reader, uint8_t byte, ss_link_frame *frame);

/* Takes bytes up to the end of a frame that is accepted; returns how many. *is_frame says whether there is one. */
size_t ss_link_read(ss_link_reader *reader, const uint8_t *bytes, size_t count, ss_link_frame *frame, int *is_frame);

/* ---- Payloads ---- */

typedef struct ss_link_text {
    const char *text; /* UTF-8 */
    size_t length;    /* bytes */
} ss_link_text;

typedef struct ss_link_hello {
    uint32_t session;
    uint8_t oldest_version;
    uint8_t newest_version;
    ss_link_text who;
} ss_link_hello;

size_t ss_link_write_hello(const ss_link_hello *hello, uint8_t *payload);
int ss_link_read_hello(const uint8_t *payload, size_t length, ss_link_hello *hello);

typedef struct ss_link_about {
    uint32_t session;
    uint8_t version;
    uint16_t largest_payload; /* [bytes] */
    uint32_t credit;          /* samples frames that it can hold */
    uint32_t state_bytes;
    ss_link_text detector;
} ss_link_about;

size_t ss_link_write_about(const ss_link_about *about, uint8_t *payload);
int ss_link_read_about(const uint8_t *payload, size_t length, ss_link_about *about);

/* start and stop: a tick, 0 to SS_LINK_MAX_TICK. */
size_t ss_link_write_tick(int64_t tick, uint8_t *payload);
int ss_link_read_tick(const uint8_t *payload, size_t length, int64_t *tick);

size_t ss_link_write_capture(uint8_t *payload);
int ss_link_read_capture(const uint8_t *payload, size_t length);

typedef struct ss_link_accepted {
    uint32_t sequence;
    uint8_t type;
} ss_link_accepted;

size_t ss_link_write_accepted(const ss_link_accepted *accepted, uint8_t *payload);
int ss_link_read_accepted(const uint8_t *payload, size_t length, ss_link_accepted *accepted);

/* progress and stopped. */
typedef struct ss_link_progress {
    int64_t taken_tick;
    uint32_t session;
    uint32_t credit; /* samples may be sent up to this number */
    uint32_t accepted;
    uint32_t damaged;
    uint32_t missing;
    uint32_t repeated;
    uint32_t marks_sent;
    uint32_t clock_us; /* wraps */
} ss_link_progress;

size_t ss_link_write_progress(const ss_link_progress *progress, uint8_t *payload);
int ss_link_read_progress(const uint8_t *payload, size_t length, ss_link_progress *progress);

/* setting and request. */
typedef struct ss_link_setting {
    int64_t first_tick; /* in a request 0: as soon as possible */
    int32_t value_milli;
    uint8_t channel;
    uint8_t setting; /* 0 LED current [mA], 1 pulse width [us], 2 gain, 3 decimation */
} ss_link_setting;

size_t ss_link_write_setting(const ss_link_setting *setting, uint8_t *payload);
int ss_link_read_setting(const uint8_t *payload, size_t length, ss_link_setting *setting);

typedef struct ss_link_log {
    uint8_t level; /* 0 information, 1 warning, 2 fault */
    ss_link_text text;
} ss_link_log;

size_t ss_link_write_log(const ss_link_log *log, uint8_t *payload);
int ss_link_read_log(const uint8_t *payload, size_t length, ss_link_log *log);

typedef struct ss_link_trouble {
    uint32_t sequence;
    uint16_t code; /* enum ss_link_trouble_code */
    ss_link_text text;
} ss_link_trouble;

size_t ss_link_write_trouble(const ss_link_trouble *trouble, uint8_t *payload);
int ss_link_read_trouble(const uint8_t *payload, size_t length, ss_link_trouble *trouble);

/* Items of setup and figures. */
typedef struct ss_link_item {
    int64_t value;
    uint16_t item;
    uint16_t index;
} ss_link_item;

/* Puts item number at (from 0) into a payload; returns the bytes that the payload has with it. */
size_t ss_link_put_item(const ss_link_item *item, unsigned at, uint8_t *payload);
/* Returns 1 when the length is that of items, and how many. */
int ss_link_read_items(size_t length, unsigned *count);
void ss_link_get_item(const uint8_t *payload, unsigned at, ss_link_item *item);

typedef struct ss_link_mark {
    int64_t sample;
    int64_t paired_sample;
    int64_t window_samples;
    int64_t emitted_tick;
    int32_t value;
    uint8_t kind;
    uint8_t channel;
    uint8_t paired_channel; /* SS_LINK_NOT_PAIRED: none */
    uint8_t quality;
    uint8_t fraction256;
    uint8_t paired_fraction256;
    uint8_t has_value;
    uint8_t is_in_codes; /* the value is in codes of the channel, not in thousandths */
} ss_link_mark;

/* Puts mark number at, 0 to SS_LINK_MAX_MARKS - 1, in ascending order; returns the bytes that the payload has with it. */
size_t ss_link_put_mark(const ss_link_mark *mark, unsigned at, uint8_t *payload);
int ss_link_read_marks(const uint8_t *payload, size_t length, unsigned channel_count, unsigned *count);
void ss_link_get_mark(const uint8_t *payload, unsigned at, ss_link_mark *mark);

typedef struct ss_link_channel {
    int64_t delay256; /* declared delay [1/256 tick] */
    int64_t delay_ns; /* the same [ns] */
    uint32_t rate_hz;
    uint32_t ticks_per_sample;
    int32_t zero_code;
    int32_t codes_per_unit256; /* codes in one mV, nA or g, times 256; 0 not known */
    uint8_t name;              /* 0 ecg, 1 red, 2 infrared, 3 green, 4 dark, 5 to 7 accel_x to accel_z */
    uint8_t bits;
    uint8_t is_signed;
    uint8_t falls; /* 1: a rising physical value lowers the code */
    uint8_t device;
    uint8_t unit_per_code[8]; /* binary64, low byte first; all 0: not known */
} ss_link_channel;

/* What format frames have told; begins as all zeros. */
typedef struct ss_link_format {
    uint32_t ticks_per_second;
    uint8_t channel_count;
    uint8_t told; /* bit i: channel i has been told */
    uint8_t channels[SS_LINK_MAX_CHANNELS][SS_LINK_CHANNEL_BYTES];
} ss_link_format;

/* Takes what a format frame tells; one that contradicts itself or what was told before changes nothing and returns 0. */
int ss_link_read_format(const uint8_t *payload, size_t length, ss_link_format *format);
int ss_link_format_is_complete(const ss_link_format *format);
void ss_link_get_channel(const ss_link_format *format, unsigned channel, ss_link_channel *out);
/* Sets a channel; for who sends a format. */
void ss_link_set_channel(ss_link_format *format, unsigned channel, const ss_link_channel *in);
/* Writes payload number 0 or 1; returns 0 when there is no such payload. */
size_t ss_link_write_format(const ss_link_format *format, unsigned number, uint8_t *payload);

typedef struct ss_link_samples {
    int64_t begin_tick;
    uint32_t ticks; /* 0: a time mark, everything before the begin tick is over */
    uint8_t sections;
    uint8_t wants_progress;
    uint8_t left;        /* sections not gone through yet */
    const uint8_t *next; /* the next one */
} ss_link_samples;

/* Consecutive samples of a channel in a samples frame. */
typedef struct ss_link_section {
    int64_t first_index;   /* sample index of the first one */
    const uint8_t *status; /* status words as they stand in the frame */
    const uint8_t *codes;  /* packed codes */
    uint8_t channel;
    uint8_t status_mode; /* 0 all words are 0, 1 one for all, 2 one for each */
    uint8_t count;
    uint8_t gap;
    uint8_t bits;
    uint8_t is_signed;
} ss_link_section;

/* Looks at everything in a samples payload of a format that is complete; returns SS_LINK_NO_TROUBLE or what is wrong. */
unsigned ss_link_read_samples(const ss_link_format *format, const uint8_t *payload, size_t length, ss_link_samples *samples);

/* Goes through the sections of a payload that was found good, which must still be there; returns 0 after the last one. */
int ss_link_next_section(const ss_link_format *format, ss_link_samples *samples, ss_link_section *section);

/* Status word of sample i of a section. */
uint16_t ss_link_status(const ss_link_section *section, unsigned i);

/* Unpacks codes one after the other; no 64-bit arithmetic. */
typedef struct ss_link_codes {
    const uint8_t *at;
    uint32_t waiting;
    uint8_t filled;
    uint8_t bits;
    uint8_t is_signed;
} ss_link_codes;

void ss_link_begin_codes(const ss_link_section *section, ss_link_codes *codes);
int32_t ss_link_next_code(ss_link_codes *codes);

/* Begins a samples payload without sections; returns its bytes. */
size_t ss_link_begin_samples(int64_t begin_tick, uint32_t ticks, int wants_progress, uint8_t *payload);

/* Adds a section; returns the bytes of the payload with it, 0 when it does not fit (then nothing has changed). count: 1 to 255.
 * status: null when all words are 0. Channels ascend; gap: samples that are missing between the begin tick and the first one. */
size_t ss_link_add_section(uint8_t *payload, size_t length, uint8_t channel, uint8_t bits, uint8_t gap, const int32_t *codes, const uint16_t *status,
                           unsigned count);

#ifdef __cplusplus
}
#endif

#endif
