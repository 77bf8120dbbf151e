/* SPDX-License-Identifier: MIT */
/*
 * What a shared library exports so that sensorsim can run it as a detector. C99, no other header than <stdint.h>.
 *
 * Order of the calls for one stream:
 *     open, set (any number, once a constant), process (any number), flush, close
 * abi, name, constant_count and constant may be called at any time. One stream follows the other, and with --in-process several may be
 * open at once, each on a thread of its own: no global variables, everything belongs into the state of open.
 *
 * All buffers belong to the caller and are valid only during the call. There are no callbacks. A state is used by one thread at a
 * time. How a stream is cut into blocks must not change the answers: in a closed loop a block is 100 ms, else a second.
 *
 * Functions that return int32_t return 0 when all is well; any other value ends the run with the verdict "crashed".
 */
#ifndef SENSORSIM_DETECTOR_H
#define SENSORSIM_DETECTOR_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(_WIN32)
#define SENSORSIM_EXPORT __declspec(dllexport)
#else
#define SENSORSIM_EXPORT __attribute__((visibility("default")))
#endif

/* Number of this contract; goes up whenever a structure or a call changes its meaning. Structures may grow at their end without that:
 * their first field, size, says how many bytes the caller has. */
#define SENSORSIM_DETECTOR_ABI 1u

/* What a channel carries. Samples of one instant are taken in this order. */
enum sensorsim_channel_name {
    SENSORSIM_ECG = 0,      /* voltage between the two electrodes [mV] */
    SENSORSIM_RED = 1,      /* received light [nA]; codes FALL when the vessel fills */
    SENSORSIM_INFRARED = 2,
    SENSORSIM_GREEN = 3,
    SENSORSIM_DARK = 4,     /* received light with every LED off [nA] */
    SENSORSIM_ACCEL_X = 5,  /* acceleration [g] */
    SENSORSIM_ACCEL_Y = 6,
    SENSORSIM_ACCEL_Z = 7
};

/* Bits of a status word; the high byte counts the changes of the channel's settings, modulo 256. */
enum sensorsim_status {
    SENSORSIM_LEAD_OFF_POSITIVE = 1,
    SENSORSIM_LEAD_OFF_NEGATIVE = 2,
    SENSORSIM_LEAD_OFF_THIRD = 4,
    SENSORSIM_SATURATED = 8,
    SENSORSIM_OVER_RANGE = 16,
    SENSORSIM_BUFFER_OVERFLOW = 32,
    SENSORSIM_PACING_SPIKE = 64,
    SENSORSIM_NO_CONTACT = 128
};

/* What a mark says; the unit of its value in brackets. */
enum sensorsim_mark_kind {
    SENSORSIM_R_PEAK = 0, /* [mV] */
    SENSORSIM_P_ONSET = 1,
    SENSORSIM_P_PEAK = 2, /* [mV] */
    SENSORSIM_P_END = 3,
    SENSORSIM_QRS_ONSET = 4,
    SENSORSIM_QRS_END = 5,
    SENSORSIM_T_ONSET = 6,
    SENSORSIM_T_PEAK = 7, /* [mV] */
    SENSORSIM_T_END = 8,
    SENSORSIM_PULSE_FOOT_MINIMUM = 9,
    SENSORSIM_PULSE_FOOT_TANGENT = 10,
    SENSORSIM_PULSE_FOOT_SECOND_DERIVATIVE = 11,
    SENSORSIM_STEEPEST_POINT = 12,
    SENSORSIM_SYSTOLIC_PEAK = 13,
    SENSORSIM_DICROTIC_NOTCH = 14,
    SENSORSIM_DIASTOLIC_PEAK = 15,
    SENSORSIM_NO_PULSE = 16,
    SENSORSIM_PEP_MS = 17,
    SENSORSIM_PTT_MS = 18,
    SENSORSIM_PAT_MS = 19,
    SENSORSIM_RR_MS = 20,
    SENSORSIM_HEART_RATE_BPM = 21,       /* [bpm] */
    SENSORSIM_ARRIVAL_TIME_MS = 22,      /* [ms]; paired with its R peak */
    SENSORSIM_RESPIRATION_RATE_BPM = 23, /* [breaths per minute] */
    SENSORSIM_GATE_OPEN = 24,
    SENSORSIM_GATE_SHUT = 25,
    SENSORSIM_T_END_TANGENT = 26,
    SENSORSIM_PACING_SPIKE_MIDDLE = 27,
    SENSORSIM_PEP_FROM_QRS_ONSET_MS = 28,
    SENSORSIM_SYSTOLIC_MMHG = 29,
    SENSORSIM_DIASTOLIC_MMHG = 30,
    SENSORSIM_MEAN_MMHG = 31,
    SENSORSIM_SPO2_PERCENT = 32,
    SENSORSIM_PERFUSION_INDEX_PERCENT = 33,
    SENSORSIM_HEART_RATE_FUSED_BPM = 34,
    SENSORSIM_RR_MEAN_MS = 35,
    SENSORSIM_SDNN_MS = 36,
    SENSORSIM_RMSSD_MS = 37,
    SENSORSIM_ARRIVAL_SPOT_MS = 38,
    SENSORSIM_ARRIVAL_SPREAD_MS = 39,
    SENSORSIM_IRREGULAR_RHYTHM = 40,
    SENSORSIM_REGULAR_RHYTHM = 41,
    SENSORSIM_JOINT_GATE_OPEN = 42,
    SENSORSIM_JOINT_GATE_SHUT = 43,
    SENSORSIM_CADENCE_PER_MIN = 44,
    SENSORSIM_PRESSURE_TREND_MMHG = 45
};

/* A setting of the sensor that may change while it runs. */
enum sensorsim_setting {
    SENSORSIM_LED_CURRENT_MA = 0, /* red, infrared, green */
    SENSORSIM_PULSE_WIDTH_US = 1, /* red, infrared, green, dark */
    SENSORSIM_GAIN = 2,           /* ECG and light */
    SENSORSIM_DECIMATION = 3      /* every channel; 0 switches it off */
};

/* One channel. A code stands for (code - zero_code) * unit_per_code * polarity, in mV, nA or g.
 * Sample k is taken at tick k * ticks_per_sample. */
typedef struct sensorsim_channel {
    int32_t name;      /* enum sensorsim_channel_name */
    int32_t rate_hz;   /* nominal sampling rate [Hz] */
    int32_t bits;      /* of the converter, 4 to 24 */
    int32_t is_signed; /* 1: codes from -2^(bits-1) to 2^(bits-1)-1; 0: from 0 to 2^bits-1 */
    int32_t zero_code; /* the code of physical zero */
    int32_t polarity;  /* +1 or -1 */
    double unit_per_code;
    int64_t declared_delay_ns; /* a body event at time t shows at device time t + delay; may be negative */
    int64_t ticks_per_sample;
    char device[32]; /* which device samples it; ends with 0 */
} sensorsim_channel;

/* The stream to come. A channel's number is its place in channels. */
typedef struct sensorsim_format {
    uint32_t size; /* bytes of this structure */
    int32_t channel_count;
    int64_t ticks_per_second;
    const sensorsim_channel *channels;
} sensorsim_format;

/* Consecutive samples. Between two runs of a channel lies a gap: samples that the sensor never delivered. */
typedef struct sensorsim_run {
    int64_t first_index; /* sample index of its first sample, counted from the start of the stream */
    int32_t offset;      /* where it starts in codes and status */
    int32_t count;       /* at least 1 */
} sensorsim_run;

typedef struct sensorsim_channel_block {
    const int32_t *codes;
    const uint16_t *status; /* one word a sample, enum sensorsim_status */
    const sensorsim_run *runs;
    int32_t sample_count; /* 0 when the channel has no sample in the block */
    int32_t run_count;
} sensorsim_channel_block;

/* Everything sampled from begin_tick up to, not including, end_tick. */
typedef struct sensorsim_block {
    uint32_t size; /* bytes of this structure */
    int32_t channel_count;
    int64_t begin_tick;
    int64_t end_tick;
    const sensorsim_channel_block *channels;
} sensorsim_block;

/* One answer. What it speaks of must have been handed over: a sample of the future, or an emitted_tick outside of the block, is the
 * verdict "lying". */
typedef struct sensorsim_mark {
    int64_t sample;         /* sample index in channel */
    int64_t emitted_tick;   /* end of the data that had been seen when the mark was decided, begin_tick to end_tick of the block */
    int64_t paired_sample;  /* of the mark that this one belongs to */
    int64_t window_samples; /* how far the averaging window reaches back from the position; 0: none */
    int32_t channel;        /* channel number */
    int32_t kind;           /* enum sensorsim_mark_kind */
    int32_t value_milli;    /* value in thousandths of the kind's unit */
    int32_t paired_channel; /* channel number of the paired mark; -1: none */
    uint8_t fraction256;    /* position after sample [1/256 of a sampling interval] */
    uint8_t paired_fraction256;
    uint8_t has_value; /* 0: value_milli means nothing */
    uint8_t quality;   /* 0 no trust, 255 full trust */
    int32_t reserved;  /* 0 */
} sensorsim_mark;

/* The wish to change a setting; heard in a closed loop, else ignored. */
typedef struct sensorsim_settings_request {
    int64_t effective_tick; /* first tick at which the change may show; 0: as soon as the sensor can */
    int32_t channel;        /* channel number */
    int32_t setting;        /* enum sensorsim_setting */
    int32_t value_milli;    /* thousandths of the setting's unit */
    int32_t reserved;       /* 0 */
} sensorsim_settings_request;

/* Where answers go. The counts are 0 at the start of each call; the library raises them. Never write beyond a capacity: drop what does
 * not fit. Who fills all of mark_capacity in one block is "babbling". */
typedef struct sensorsim_answers {
    uint32_t size; /* bytes of this structure */
    int32_t mark_capacity;
    int32_t mark_count;
    int32_t request_capacity;
    int32_t request_count;
    int32_t reserved;
    sensorsim_mark *marks;
    sensorsim_settings_request *requests;
} sensorsim_answers;

/* A constant of the detector that a study may vary as detector.NAME. The texts stay the library's. */
typedef struct sensorsim_constant {
    uint32_t size;       /* bytes of this structure, filled in by the caller */
    int32_t is_whole;    /* 1: whole numbers only */
    const char *name;    /* lower-case letters, digits, underscores; the unit at its end, for example threshold_uv */
    const char *unit;    /* may be "" */
    const char *meaning; /* one sentence */
    double minimum;
    double maximum;
    double default_value;
} sensorsim_constant;

/* Returns SENSORSIM_DETECTOR_ABI. */
SENSORSIM_EXPORT uint32_t sensorsim_detector_abi(void);

/* Name and version, for example "threshold 1.0"; UTF-8. */
SENSORSIM_EXPORT const char *sensorsim_detector_name(void);

/* How many constants there are. */
SENSORSIM_EXPORT int32_t sensorsim_detector_constant_count(void);

/* Tells constant number index, 0 to count - 1. */
SENSORSIM_EXPORT int32_t sensorsim_detector_constant(int32_t index, sensorsim_constant *constant);

/* Prepares for a stream and hands out the state. When the detector cannot work on such a stream it returns another value than 0 and
 * writes into message (UTF-8, at most message_capacity bytes with the final 0) what it needs; nothing is closed then. */
SENSORSIM_EXPORT int32_t sensorsim_detector_open(const sensorsim_format *format, void **state, char *message, int32_t message_capacity);

/* Gives a constant another value than its default; after open, before the first block. */
SENSORSIM_EXPORT int32_t sensorsim_detector_set(void *state, const char *name, double value);

/* Takes the next block. */
SENSORSIM_EXPORT int32_t sensorsim_detector_process(void *state, const sensorsim_block *block, sensorsim_answers *answers);

/* The stream has ended: gives what was held back. */
SENSORSIM_EXPORT int32_t sensorsim_detector_flush(void *state, sensorsim_answers *answers);

/* Frees the state. */
SENSORSIM_EXPORT void sensorsim_detector_close(void *state);

#ifdef __cplusplus
}
#endif

#endif
