/* SPDX-License-Identifier: MIT */
/*
 * The library behind a few calls with integers: for the firmware of a board, for a detector that is loaded as a shared library, and for tests.
 * Samples come in stretches of any length with gaps anywhere; the adapter cuts them into the slices that the library takes.
 */
#ifndef SENSORSIM_LIBRARY_ADAPTER_H
#define SENSORSIM_LIBRARY_ADAPTER_H

#include "sensorsim_library.h"

/*
 * What the library may be told beside the channels; of each the usual value holds until it is told. The numbers are those of a setup frame
 * (docs/link-protocol.md, sensorsim_link.h), so that a board hands over what it is sent; values in the unit of the field.
 */
enum {
    SS_ADAPTER_START_S = 0x0001,         /* start_s of ss_library_options_t */
    SS_ADAPTER_TUNING = 0x0100,          /* and the eight after it: the fields of ss_tuning_t, in their order */
    SS_ADAPTER_OXYGEN_PAIRS = 0x0200,    /* pairs that will come; begins a table of one's own */
    SS_ADAPTER_OXYGEN_RATIO = 0x0201,    /* index: pair, from 0 up; ratio [1/10,000]; pair 0 also begins a table */
    SS_ADAPTER_OXYGEN_PERCENT = 0x0202,  /* index: pair; its saturation [1/1000 %]; told after its ratio */
    SS_ADAPTER_PRESSURE = 0x0300,        /* and the eight after it: points, model, slope, zeta, diastolic share, systolic and diastolic per bpm, age, reach */
    SS_ADAPTER_CUFF = 0x0310,            /* and the five after it: the fields of ss_cuff_point_t, in their order; index: measurement, 0 or 1 */
    SS_ADAPTER_TREND = 0x0400            /* and the seven after it: the fields of ss_trend_settings_t, in their order */
};

/* Consecutive samples of one channel. */
typedef struct ss_sample_run {
    const int32_t *codes;
    const uint16_t *status; /* one word a sample */
    int64_t first_index;    /* of the first sample, counted from the start of the stream */
    int32_t count;          /* at least 1 */
} ss_sample_run_t;

/* The runs of one channel in a piece, in order of time; between two of them samples are missing. */
typedef struct ss_channel_runs {
    const ss_sample_run_t *runs;
    int32_t count; /* 0: no sample of the channel */
} ss_channel_runs_t;

/* Everything sampled from begin_tick up to, not including, end_tick. */
typedef struct ss_piece {
    int64_t begin_tick;
    int64_t end_tick;
    ss_channel_runs_t channels[SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH]; /* by SS_CHANNEL_ROLE_... */
} ss_piece_t;

/* Takes one answer. */
typedef void (*ss_answer_taker_t)(void *context, const ss_answer_t *answer);

/* The library with what it was told. */
typedef struct ss_adapter {
    ss_library_t library;
    ss_library_setup_t setup;
    ss_library_options_t options;
    ss_answer_t *room;
    ss_answer_taker_t take;
    void *context;
    int32_t room_count;
    int32_t pending_ratio;
    int32_t lost_count; /* answers that did not fit into the room */
} ss_adapter_t;

/* Begins anew: no channel, the usual options. room holds the answers of one slice; SS_ANSWER_LIST_MOST are enough. */
void ss_adapter_init(ss_adapter_t *self, ss_answer_t *room, int32_t room_count, ss_answer_taker_t take, void *context);

/* Tells a channel, before the start. False: there is no such channel, or a value is none that it can have. */
bool ss_adapter_channel(ss_adapter_t *self, int32_t role, const ss_channel_setup_t *channel);

/* Tells an option, before the start. False: there is no such option, or it cannot have the value; nothing changes then. */
bool ss_adapter_set(ss_adapter_t *self, uint16_t item, uint16_t index, int64_t value);

/*
 * Starts. Returns SS_CHANNEL_ROLE_NONE when all is well, else the channel whose rate the library cannot work with; without ECG and light that is
 * SS_CHANNEL_ROLE_ECG.
 */
ss_channel_role_t ss_adapter_start(ss_adapter_t *self, int64_t ticks_per_second);

/* Takes the samples of a stretch of time that begins where the one before ended; answers go to the taker. */
void ss_adapter_take(ss_adapter_t *self, const ss_piece_t *piece);

/* No more samples follow: the last answers go to the taker. */
void ss_adapter_flush(ss_adapter_t *self);

#endif
