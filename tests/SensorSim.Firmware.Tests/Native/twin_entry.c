/* SPDX-License-Identifier: MIT */
/*
 * The twin for tests: plain arrays in, plain arrays out. As a shared library it is loaded beside the C# library; as a program (TWIN_PROGRAM) it reads
 * a stream from a file and prints a sum over all answers.
 */
#include "library_adapter.h"

#define ANSWER_WORDS 14

#if defined(_WIN32)
#define EXPORT __declspec(dllexport)
#else
#define EXPORT __attribute__((visibility("default")))
#endif

typedef struct twin {
    ss_adapter_t adapter;
    ss_answer_t room[SS_ANSWER_LIST_MOST];
    int64_t *words;
    int32_t capacity;
    int32_t count;
} twin_t;

static void take(void *context, const ss_answer_t *answer)
{
    twin_t *self = context;
    if (self->count < self->capacity) {
        int64_t *w = &self->words[(int64_t)self->count * ANSWER_WORDS];
        w[0] = answer->kind;
        w[1] = answer->reading;
        w[2] = answer->role;
        w[3] = answer->paired_role;
        w[4] = answer->quality;
        w[5] = answer->value;
        w[6] = answer->place.sample;
        w[7] = answer->place.fraction256;
        w[8] = answer->paired.sample;
        w[9] = answer->paired.fraction256;
        w[10] = answer->window_samples;
        w[11] = answer->emitted_tick;
        w[12] = self->adapter.lost_count;
        w[13] = ss_library_pressure_refusal(&self->adapter.library);
    }
    self->count++;
}

EXPORT int32_t twin_size(void) { return (int32_t)sizeof(twin_t); }

EXPORT int32_t twin_state_size(void) { return (int32_t)sizeof(ss_library_t); }

EXPORT void twin_init(void *state)
{
    twin_t *self = state;
    ss_adapter_init(&self->adapter, self->room, SS_ANSWER_LIST_MOST, take, self);
}

EXPORT int32_t twin_channel(void *state, int32_t role, int32_t rate_hz, int32_t ticks_per_sample, int32_t polarity, int32_t zero_code, int32_t codes_per_unit256,
    int64_t delay256)
{
    twin_t *self = state;
    ss_channel_setup_t channel = { rate_hz, ticks_per_sample, polarity, zero_code, codes_per_unit256, delay256 };
    return ss_adapter_channel(&self->adapter, role, &channel) ? 1 : 0;
}

EXPORT int32_t twin_set(void *state, int32_t item, int32_t index, int64_t value)
{
    twin_t *self = state;
    return ss_adapter_set(&self->adapter, (uint16_t)item, (uint16_t)index, value) ? 1 : 0;
}

EXPORT int32_t twin_start(void *state, int64_t ticks_per_second)
{
    twin_t *self = state;
    return ss_adapter_start(&self->adapter, ticks_per_second);
}

/* Runs: 4 words each (role, first index, where it starts in codes and status, count), by role and time. Returns how many answers there were. */
EXPORT int32_t twin_take(void *state, int64_t begin_tick, int64_t end_tick, const int32_t *codes, const uint16_t *status, const int64_t *runs, int32_t run_count,
    int64_t *words, int32_t capacity)
{
    enum { MOST = 4096 };
    static ss_sample_run_t held[MOST];
    twin_t *self = state;
    ss_piece_t piece = { 0 };
    piece.begin_tick = begin_tick;
    piece.end_tick = end_tick;
    if (run_count > MOST) {
        return -1;
    }
    for (int32_t i = 0; i < run_count; i++) {
        const int64_t *w = &runs[(int64_t)i * 4];
        held[i].first_index = w[1];
        held[i].codes = &codes[w[2]];
        held[i].status = &status[w[2]];
        held[i].count = (int32_t)w[3];
        ss_channel_runs_t *channel = &piece.channels[w[0]];
        channel->runs = channel->count == 0 ? &held[i] : channel->runs;
        channel->count++;
    }
    self->words = words;
    self->capacity = capacity;
    self->count = 0;
    ss_adapter_take(&self->adapter, &piece);
    return self->count;
}

EXPORT int32_t twin_flush(void *state, int64_t *words, int32_t capacity)
{
    twin_t *self = state;
    self->words = words;
    self->capacity = capacity;
    self->count = 0;
    ss_adapter_flush(&self->adapter);
    return self->count;
}

#ifdef TWIN_PROGRAM
#include <stdio.h>
#include <stdlib.h>

/*
 * A stream as words of 64 bits: calls of the functions above. 1 channel and its 7 numbers; 2 an option and its 3; 3 start and its 1;
 * 4 take: begin, end, samples, runs, then codes, status and runs one word each; 5 flush; 0 the end: the next stream begins anew.
 */
static int64_t next(FILE *file, int *is_there)
{
    int64_t word = 0;
    *is_there = fread(&word, sizeof word, 1, file) == 1;
    return word;
}

static uint64_t sum_of(uint64_t sum, const int64_t *words, int32_t count)
{
    for (int64_t i = 0; i < (int64_t)count * ANSWER_WORDS; i++) {
        sum = (sum ^ (uint64_t)words[i]) * UINT64_C(1099511628211);
    }
    return sum;
}

int main(int argc, char **argv)
{
    enum { CAPACITY = 4096 };
    static twin_t twin;
    static int64_t words[CAPACITY * ANSWER_WORDS];
    FILE *file = argc > 1 ? fopen(argv[1], "rb") : NULL;
    uint64_t sum = UINT64_C(14695981039346656037);
    int64_t total = 0;
    int there = 1;
    if (file == NULL) {
        return 2;
    }
    twin_init(&twin);
    for (int64_t what = next(file, &there); there; what = next(file, &there)) {
        int64_t n[8];
        int32_t given = what == 1 ? 7 : what == 2 ? 3 : what == 3 ? 1 : what == 4 ? 4 : 0;
        for (int32_t i = 0; i < given; i++) {
            n[i] = next(file, &there);
        }
        if (what == 0) {
            twin_init(&twin);
        } else if (what == 1) {
            twin_channel(&twin, (int32_t)n[0], (int32_t)n[1], (int32_t)n[2], (int32_t)n[3], (int32_t)n[4], (int32_t)n[5], n[6]);
        } else if (what == 2) {
            twin_set(&twin, (int32_t)n[0], (int32_t)n[1], n[2]);
        } else if (what == 3) {
            sum = (sum ^ (uint64_t)twin_start(&twin, n[0])) * UINT64_C(1099511628211);
        } else {
            int32_t count;
            if (what == 4) {
                size_t samples = (size_t)n[2];
                size_t runs = (size_t)n[3];
                int32_t *codes = malloc((samples + 1) * sizeof *codes);
                uint16_t *status = malloc((samples + 1) * sizeof *status);
                int64_t *held = malloc((runs * 4 + 1) * sizeof *held);
                if (codes == NULL || status == NULL || held == NULL) {
                    return 3;
                }
                for (size_t i = 0; i < samples; i++) {
                    codes[i] = (int32_t)next(file, &there);
                }
                for (size_t i = 0; i < samples; i++) {
                    status[i] = (uint16_t)next(file, &there);
                }
                for (size_t i = 0; i < runs * 4; i++) {
                    held[i] = next(file, &there);
                }
                count = twin_take(&twin, n[0], n[1], codes, status, held, (int32_t)runs, words, CAPACITY);
                free(codes);
                free(status);
                free(held);
            } else {
                count = twin_flush(&twin, words, CAPACITY);
            }
            if (count < 0 || count > CAPACITY) {
                return 4;
            }
            sum = sum_of(sum, words, count);
            total += count;
        }
    }
    fclose(file);
    printf("%lld %016llx\n", (long long)total, (unsigned long long)sum);
    return 0;
}
#endif
