/* SPDX-License-Identifier: MIT */
/*
 * A small R-peak detector: the difference of two samples that lie 12 ms apart, against half of a running peak, with a refractory time.
 * Integers only. The same algorithm as docs/examples/csharp-detector, step by step, so both give the same marks.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sensorsim_detector.h"

#define RING 64

typedef struct {
    int32_t channel;
    int32_t rate_hz;
    int64_t ticks_per_sample;
    int32_t refractory_ms;
    int32_t threshold_percent;
    int32_t lag;        /* samples between the two that are compared */
    int32_t codes[RING]; /* the latest codes, by sample index modulo RING */
    int64_t next;       /* index of the sample that follows without a gap; -1: none yet */
    int64_t seen;       /* samples since the start or the latest gap */
    int64_t peak;       /* running peak of the steepness, in 1/16 */
    int64_t last;       /* sample of the latest mark */
    int64_t best;       /* place of the steepest rise while above the threshold; -1: below */
    int32_t steepest;
    int64_t end_tick;   /* end of the latest block */
} detector;

static const sensorsim_constant constants[] = {
    {sizeof(sensorsim_constant), 1, "refractory_ms", "ms", "Shortest time between two beats.", 100, 600, 250},
    {sizeof(sensorsim_constant), 1, "threshold_percent", "%", "Steepness of a beat, of the running peak.", 10, 90, 50},
};

uint32_t sensorsim_detector_abi(void) { return SENSORSIM_DETECTOR_ABI; }

const char *sensorsim_detector_name(void) { return "threshold 1.0"; }

int32_t sensorsim_detector_constant_count(void) { return (int32_t)(sizeof constants / sizeof constants[0]); }

int32_t sensorsim_detector_constant(int32_t index, sensorsim_constant *constant) {
    *constant = constants[index];
    return 0;
}

int32_t sensorsim_detector_open(const sensorsim_format *format, void **state, char *message, int32_t message_capacity) {
    for (int32_t c = 0; c < format->channel_count; c++) {
        const sensorsim_channel *channel = &format->channels[c];
        if (channel->name == SENSORSIM_ECG) {
            if (channel->rate_hz < 100 || channel->rate_hz > 2000) {
                snprintf(message, (size_t)message_capacity, "The ECG has %d Hz; threshold works from 100 to 2000 Hz.", (int)channel->rate_hz);
                return 1;
            }
            detector *d = calloc(1, sizeof *d);
            if (d == NULL) {
                snprintf(message, (size_t)message_capacity, "There is no memory left.");
                return 1;
            }
            d->channel = c;
            d->rate_hz = channel->rate_hz;
            d->ticks_per_sample = channel->ticks_per_sample;
            d->refractory_ms = 250;
            d->threshold_percent = 50;
            d->lag = channel->rate_hz * 12 / 1000 > 0 ? channel->rate_hz * 12 / 1000 : 1;
            d->next = -1;
            d->last = -1000000;
            d->best = -1;
            *state = d;
            return 0;
        }
    }
    snprintf(message, (size_t)message_capacity, "The stream has no ecg; threshold needs it.");
    return 1;
}

int32_t sensorsim_detector_set(void *state, const char *name, double value) {
    detector *d = state;
    if (strcmp(name, "refractory_ms") == 0) {
        d->refractory_ms = (int32_t)value;
    } else if (strcmp(name, "threshold_percent") == 0) {
        d->threshold_percent = (int32_t)value;
    } else {
        return 1;
    }
    return 0;
}

static void give(detector *d, int64_t emitted_tick, sensorsim_answers *answers) {
    if (answers->mark_count < answers->mark_capacity) {
        sensorsim_mark *mark = &answers->marks[answers->mark_count++];
        memset(mark, 0, sizeof *mark);
        mark->channel = d->channel;
        mark->kind = SENSORSIM_R_PEAK;
        /* The steepest rise ends at the peak, as good as this detector knows. */
        mark->sample = d->best;
        mark->paired_channel = -1;
        mark->quality = 255;
        mark->emitted_tick = emitted_tick;
    }
    d->last = d->best;
    d->best = -1;
}

static void take(detector *d, int64_t index, int32_t code, sensorsim_answers *answers) {
    if (index != d->next) {
        d->seen = 0;
        d->best = -1;
    }
    d->next = index + 1;
    d->codes[index % RING] = code;
    d->seen++;
    if (d->seen <= d->lag) {
        return;
    }
    int32_t rise = code - d->codes[(index - d->lag) % RING];
    int32_t steep = rise < 0 ? -rise : rise;
    /* The running peak follows at once and falls by 1/1024 of itself a sample. */
    d->peak -= d->peak >> 10;
    if ((int64_t)steep * 16 > d->peak) {
        d->peak = (int64_t)steep * 16;
    }
    int is_above = (int64_t)steep * 1600 > d->peak * d->threshold_percent;
    int is_free = (index - d->last) * 1000 >= (int64_t)d->refractory_ms * d->rate_hz;
    if (d->best < 0 && is_above && is_free && d->seen > d->rate_hz) {
        d->best = index;
        d->steepest = steep;
    } else if (d->best >= 0 && steep > d->steepest) {
        d->best = index;
        d->steepest = steep;
    } else if (d->best >= 0 && (index - d->best) * 1000 >= (int64_t)60 * d->rate_hz) {
        give(d, index * d->ticks_per_sample, answers);
    }
}

int32_t sensorsim_detector_process(void *state, const sensorsim_block *block, sensorsim_answers *answers) {
    detector *d = state;
    const sensorsim_channel_block *channel = &block->channels[d->channel];
    d->end_tick = block->end_tick;
    for (int32_t r = 0; r < channel->run_count; r++) {
        const sensorsim_run *run = &channel->runs[r];
        for (int32_t i = 0; i < run->count; i++) {
            take(d, run->first_index + i, channel->codes[run->offset + i], answers);
        }
    }
    return 0;
}

int32_t sensorsim_detector_flush(void *state, sensorsim_answers *answers) {
    detector *d = state;
    if (d->best >= 0) {
        give(d, d->end_tick, answers);
    }
    return 0;
}

void sensorsim_detector_close(void *state) { free(state); }
