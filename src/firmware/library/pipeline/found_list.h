/* Generated from SensorSim.Detection/Pipeline/FoundList.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_FOUND_LIST_H
#define SS_PIPELINE_FOUND_LIST_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_event.h"
#include "pulses/pulse_event.h"

/* What a path has found. */
enum {
    SS_FOUND_KIND_BEAT = 0,
    SS_FOUND_KIND_STEP = 1,
    SS_FOUND_KIND_PULSE = 2,
    SS_FOUND_KIND_SPECTRUM = 3,
    SS_FOUND_KIND_CADENCE = 4
};

/*
 * Beats lie at least 200 ms apart, pulses 270 ms, windows a second, and steps with nothing between them count once: none of these is ever
 * full.
 */
#define SS_FOUND_LIST_CAPACITY 16
#define SS_FOUND_LIST_EVENT_CAPACITY 4

/* Something found, and the tick of the sample that showed it. */
struct ss_found {
    int64_t tick;
    int32_t signal_level; /* Signal and noise level of the detector when it found the beat or pulse. */
    int32_t noise_level;
    /* A rate [1/1000 per minute] and its trust, from the spectrum or of the steps; the latter are trusted while there is movement. */
    int32_t rate_milli;
    uint8_t quality;
    bool is_trusted;
    bool is_oxygen; /* Whether there is a new value of oxygen saturation with the pulse. */
    ss_found_kind_t kind;
    uint8_t slot; /* Where a beat or pulse stands in full. */
};

struct ss_found_list_items {
    ss_found_t at[16];
};

struct ss_found_list_beat_events {
    ss_beat_event_t at[4];
};

struct ss_found_list_pulse_events {
    ss_pulse_event_t at[4];
};

/* What has been found within a slice of at most a tenth of a second, in order of tick, then of kind. */
struct ss_found_list {
    ss_found_list_items_t items;
    ss_found_list_beat_events_t beats;
    ss_found_list_pulse_events_t pulses;
    uint8_t beat_count;
    uint8_t pulse_count;
    int32_t count;
};

static inline const ss_found_t *ss_found_list_at(const ss_found_list_t *self, int32_t index);

const ss_beat_event_t *ss_found_list_beat(const ss_found_list_t *self, const ss_found_t *found);

const ss_pulse_event_t *ss_found_list_pulse(const ss_found_list_t *self, const ss_found_t *found);

void ss_found_list_add_beat(ss_found_list_t *self, const ss_beat_event_t *beat, int32_t signal_level, int32_t noise_level, int64_t tick);

void ss_found_list_add_pulse(ss_found_list_t *self, const ss_pulse_event_t *pulse, int32_t signal_level, int32_t noise_level,
    bool is_oxygen, int64_t tick);

void ss_found_list_add(ss_found_list_t *self, const ss_found_t *found);

static inline const ss_found_t *ss_found_list_at(const ss_found_list_t *self, int32_t index)
{
    return &self->items.at[index];
}

#endif
