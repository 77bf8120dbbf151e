/* SPDX-License-Identifier: MIT */
/*
 * The C library fed from the header of a vector set: prints what the header says of its channels, then every answer, one line each.
 *   channel NAME role rate_hz ticks_per_sample polarity zero_code codes_per_unit256 delay256 unit_per_code
 *   end ticks_per_second end_tick
 *   answer kind reading role paired_role quality value sample fraction256 paired_sample paired_fraction256 window_samples emitted_tick
 *   done ANSWERS
 * The same file runs on the host and on the emulated boards (vector_out_host.c, vector_out_board.c); nothing but integers, no memory taken.
 * VECTOR_HEADER is the header's name in quotation marks.
 */
#include VECTOR_HEADER

#include "library_adapter.h"
#include "vector_out.h"

enum { CHANNELS = SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH, MOST = 16 };

/* One channel of the header while it is read, and its samples of one piece as the library takes them. */
typedef struct {
    const sensorsim_vector_channel *of;
    int32_t run;       /* of the header, the next sample lies in it */
    int32_t in_run;    /* samples of that run that are done */
    int32_t place;     /* samples that are done */
    int32_t status_at; /* entry of the header's list of status words */
    int32_t codes[MOST];
    uint16_t status[MOST];
    ss_sample_run_t runs[MOST];
} reader_t;

static ss_adapter_t adapter;
static ss_answer_t room[SS_ANSWER_LIST_MOST];
static reader_t readers[CHANNELS];
static int64_t answer_count;

static void put_number(int64_t number)
{
    char text[24];
    int32_t at = (int32_t)sizeof text;
    uint64_t rest = number < 0 ? 0u - (uint64_t)number : (uint64_t)number;
    text[--at] = '\0';
    do {
        text[--at] = (char)('0' + (int)(rest % 10u));
        rest /= 10u;
    } while (rest != 0);
    if (number < 0) {
        text[--at] = '-';
    }
    text[--at] = ' ';
    vector_out(&text[at]);
}

static void take(void *context, const ss_answer_t *answer)
{
    (void)context;
    vector_out("answer");
    put_number(answer->kind);
    put_number(answer->reading);
    put_number(answer->role);
    put_number(answer->paired_role);
    put_number(answer->quality);
    put_number(answer->value);
    put_number(answer->place.sample);
    put_number(answer->place.fraction256);
    put_number(answer->paired.sample);
    put_number(answer->paired.fraction256);
    put_number(answer->window_samples);
    put_number(answer->emitted_tick);
    vector_out("\n");
    answer_count++;
}

/* Tells the library a channel and prints it. */
static bool begin_channel(const sensorsim_vector_channel *channel)
{
    ss_channel_setup_t setup = {
        channel->rate_hz, channel->ticks_per_sample, channel->polarity, channel->zero_code, channel->codes_per_unit256, channel->delay256,
    };
    vector_out("channel ");
    vector_out(channel->name);
    put_number(channel->role);
    put_number(channel->rate_hz);
    put_number(channel->ticks_per_sample);
    put_number(channel->polarity);
    put_number(channel->zero_code);
    put_number(channel->codes_per_unit256);
    put_number(channel->delay256);
    vector_out(" ");
    vector_out(channel->unit_per_code);
    vector_out("\n");
    if (channel->role < 0 || channel->role >= CHANNELS || readers[channel->role].of != 0) {
        return false;
    }

    readers[channel->role].of = channel;
    return ss_adapter_channel(&adapter, channel->role, &setup);
}

static uint16_t status_of(reader_t *reader)
{
    const sensorsim_vector_channel *of = reader->of;
    while (reader->status_at < of->status_count && reader->place >= of->status[reader->status_at].first + of->status[reader->status_at].count) {
        reader->status_at++;
    }
    return reader->status_at < of->status_count && reader->place >= of->status[reader->status_at].first ? of->status[reader->status_at].word : 0u;
}

/* The samples before a tick, at most MOST of them. */
static ss_channel_runs_t read_until(reader_t *reader, int64_t end_tick)
{
    ss_channel_runs_t runs = { reader->runs, 0 };
    int32_t count = 0;
    int64_t expected = -1;
    while (reader->of != 0 && count < MOST && reader->run < reader->of->run_count) {
        const sensorsim_vector_run *run = &reader->of->runs[reader->run];
        int64_t index = (int64_t)run->first_index + reader->in_run;
        if (index * reader->of->ticks_per_sample >= end_tick) {
            break;
        }

        if (index != expected) {
            ss_sample_run_t *begun = &reader->runs[runs.count++];
            begun->codes = &reader->codes[count];
            begun->status = &reader->status[count];
            begun->first_index = index;
            begun->count = 0;
        }

        reader->codes[count] = reader->of->codes16 != 0 ? reader->of->codes16[reader->place] : reader->of->codes32[reader->place];
        reader->status[count] = status_of(reader);
        reader->runs[runs.count - 1].count++;
        expected = index + 1;
        count++;
        reader->place++;
        reader->in_run++;
        if (reader->in_run == run->count) {
            reader->run++;
            reader->in_run = 0;
        }
    }

    return runs;
}

int main(void)
{
    const sensorsim_vector *vector = &SENSORSIM_VECTOR_LAST;
    int64_t step = 0;
    ss_adapter_init(&adapter, room, SS_ANSWER_LIST_MOST, take, 0);
    for (int32_t i = 0; i < vector->channel_count; i++) {
        const sensorsim_vector_channel *channel = &vector->channels[i];
        if (!begin_channel(channel)) {
            return vector_end("a channel is refused\n");
        }

        int64_t ticks = (int64_t)MOST * channel->ticks_per_sample;
        step = step == 0 || ticks < step ? ticks : step;
    }

    vector_out("end");
    put_number(vector->ticks_per_second);
    put_number(vector->end_tick);
    vector_out("\n");
    if (step == 0 || ss_adapter_start(&adapter, vector->ticks_per_second) != SS_CHANNEL_ROLE_NONE) {
        return vector_end("the library refuses the stream\n");
    }

    ss_piece_t piece = { 0 };
    while (piece.end_tick < vector->end_tick) {
        piece.begin_tick = piece.end_tick;
        piece.end_tick = piece.begin_tick + step < vector->end_tick ? piece.begin_tick + step : vector->end_tick;
        for (int32_t i = 0; i < CHANNELS; i++) {
            piece.channels[i] = read_until(&readers[i], piece.end_tick);
        }

        ss_adapter_take(&adapter, &piece);
    }

    ss_adapter_flush(&adapter);
    for (int32_t i = 0; i < CHANNELS; i++) {
        if (readers[i].of != 0 && readers[i].place != readers[i].of->count) {
            return vector_end("samples are left: runs, count and end_tick do not fit together\n");
        }
    }

    if (adapter.lost_count != 0) {
        return vector_end("answers were lost\n");
    }

    vector_out("done");
    put_number(answer_count);
    vector_out("\n");
    return vector_end(0);
}
