/* SPDX-License-Identifier: MIT */
/*
 * A small R-peak detector: the difference of two samples that lie 12 ms apart, against half of a running peak, with a refractory time.
 * Integers only. The same algorithm as docs/examples/c-detector, in the shape that the session wants: it stops after each answer and goes on
 * when it is called again.
 */
#include "threshold.h"

#include <stddef.h>
#include <string.h>

enum { R_PEAK = 0, ECG = 0, REFRACTORY_ITEM = SS_LINK_SETUP_FIRST_OF_DETECTOR, THRESHOLD_ITEM };

static void begin(void *context) {
    threshold *d = context;
    memset(d, 0, sizeof *d);
    d->refractory_ms = 250;
    d->threshold_percent = 50;
    d->next = -1;
    d->last = -1000000;
    d->best = -1;
}

/* All or nothing: what is wrong with one item must leave the others without effect. */
static int setup(void *context, const ss_link_item *items, unsigned count) {
    threshold *d = context;
    int32_t refractory_ms = d->refractory_ms;
    int32_t threshold_percent = d->threshold_percent;
    for (unsigned i = 0; i < count; i++) {
        const int64_t value = items[i].value;
        if (items[i].item == REFRACTORY_ITEM && items[i].index == 0u && value >= 100 && value <= 600) {
            refractory_ms = (int32_t)value;
        } else if (items[i].item == THRESHOLD_ITEM && items[i].index == 0u && value >= 10 && value <= 90) {
            threshold_percent = (int32_t)value;
        } else {
            return 0;
        }
    }
    d->refractory_ms = refractory_ms;
    d->threshold_percent = threshold_percent;
    return 1;
}

/* The begin does not matter: a stretch without samples costs nothing here. */
static const char *start(void *context, const ss_link_format *format, int64_t begin_tick) {
    threshold *d = context;
    (void)begin_tick;
    for (uint8_t c = 0; c < format->channel_count; c++) {
        ss_link_channel channel;
        ss_link_get_channel(format, c, &channel);
        if (channel.name == ECG) {
            if (channel.rate_hz < 100u || channel.rate_hz > 2000u) {
                return "The ECG has a rate that threshold does not take: it works from 100 to 2000 Hz.";
            }
            d->channel = c;
            d->rate_hz = (int32_t)channel.rate_hz;
            d->ticks_per_sample = channel.ticks_per_sample;
            d->lag = d->rate_hz * 12 / 1000;
            return NULL;
        }
    }
    return "The stream has no ecg; threshold needs it.";
}

static void give(threshold *d) {
    memset(&d->mark, 0, sizeof d->mark);
    d->mark.kind = R_PEAK;
    d->mark.channel = (uint8_t)d->channel;
    d->mark.paired_channel = SS_LINK_NOT_PAIRED;
    d->mark.quality = 255;
    d->mark.sample = d->best;
    d->mark.emitted_tick = d->now;
    d->has_mark = 1;
    d->last = d->best;
    d->best = -1;
}

static void take_sample(threshold *d, int64_t index, int32_t code) {
    if (index != d->next) {
        d->seen = 0;
        d->best = -1;
    }
    d->next = index + 1;
    d->codes[index % THRESHOLD_RING] = code;
    d->seen++;
    if (d->seen <= d->lag) {
        return;
    }
    const int32_t rise = code - d->codes[(index - d->lag) % THRESHOLD_RING];
    const int32_t steep = rise < 0 ? -rise : rise;
    /* The running peak follows at once and falls by 1/1024 of itself a sample. */
    d->peak -= d->peak >> 10;
    if ((int64_t)steep * 16 > d->peak) {
        d->peak = (int64_t)steep * 16;
    }
    const int is_above = (int64_t)steep * 1600 > d->peak * d->threshold_percent;
    const int is_free = (index - d->last) * 1000 >= (int64_t)d->refractory_ms * d->rate_hz;
    if ((d->best < 0 && is_above && is_free && d->seen > d->rate_hz) || (d->best >= 0 && steep > d->steepest)) {
        d->best = index;
        d->steepest = steep;
    } else if (d->best >= 0 && (index - d->best) * 1000 >= (int64_t)60 * d->rate_hz) {
        give(d);
    }
}

static int64_t take(void *context, const ss_board_piece *piece) {
    threshold *d = context;
    const ss_board_run *ecg = &piece->channels[d->channel];
    /* The first sample at or after the tick that was reached. */
    int64_t index = (d->now + d->ticks_per_sample - 1) / d->ticks_per_sample;
    index = index < ecg->first ? ecg->first : index;
    for (; index < ecg->first + ecg->count; index++) {
        const int64_t tick = index * d->ticks_per_sample;
        if (tick >= piece->until_tick) {
            break;
        }
        d->now = tick + 1;
        take_sample(d, index, ecg->codes[index - ecg->first]);
        if (d->has_mark) {
            d->mark.emitted_tick = tick;
            return d->now;
        }
    }
    d->now = piece->until_tick;
    return d->now;
}

static void flush(void *context) {
    threshold *d = context;
    if (d->best >= 0) {
        give(d);
    }
}

static int answer(void *context, ss_link_mark *mark) {
    threshold *d = context;
    if (!d->has_mark) {
        return 0;
    }
    *mark = d->mark;
    d->has_mark = 0;
    return 1;
}

const ss_board_detector threshold_detector = {
    "threshold 1.0", (uint32_t)sizeof(threshold), begin, setup, NULL, start, take, flush, answer, NULL, NULL, NULL,
};
