/* SPDX-License-Identifier: MIT */
/* Detectors that behave badly from the third block on; which way says BEHAVIOUR at compile time. Otherwise one mark a block. */
#define _POSIX_C_SOURCE 200809L
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#if defined(__x86_64__)
#include <xmmintrin.h>
#endif

#include "sensorsim_detector.h"

enum { GOOD, SEGFAULT, ABORT, ENDLESS, BABBLING, FUTURE, EARLY, OTHER_ABI, DENORMALS, TOO_MANY, BEYOND, ERROR_CODE, PRINTS, ASKS, REFUSES,
       EXITS, SILENT, CRASHES_ON_LOAD, DIVIDES, CRASHES_ON_CLOSE, NO_CLOSE, BAD_NAME, HANGS_ON_OPEN, ROUNDING, NEGATIVE, REFUSES_VALUE,
       EXITS_ZERO, EXITS_ON_CLOSE, HANGS_ON_CLOSE, CLOSES_INPUT };

typedef struct {
    int32_t blocks;
    int64_t end_tick;
    int32_t red;
    double current_ma;
} state;

uint32_t sensorsim_detector_abi(void) { return BEHAVIOUR == OTHER_ABI ? 77 : SENSORSIM_DETECTOR_ABI; }

const char *sensorsim_detector_name(void) { return "bad 1.0"; }

int32_t sensorsim_detector_constant_count(void) { return 1; }

int32_t sensorsim_detector_constant(int32_t index, sensorsim_constant *constant) {
    (void)index;
    constant->name = BEHAVIOUR == BAD_NAME ? "Current mA" : "current_ma";
    constant->unit = "mA";
    constant->meaning = "Current that is asked for.";
    constant->minimum = 1;
    constant->maximum = 50;
    constant->default_value = 10;
    constant->is_whole = 0;
    return 0;
}

int32_t sensorsim_detector_open(const sensorsim_format *format, void **out, char *message, int32_t message_capacity) {
    if (BEHAVIOUR == REFUSES) {
        snprintf(message, (size_t)message_capacity, "needs 360 Hz,\nand a \"lead\"");
        return 5;
    }
    if (BEHAVIOUR == HANGS_ON_OPEN) {
        for (volatile int i = 0;; i++) {
        }
    }
    state *s = calloc(1, sizeof *s);
    s->red = -1;
    s->current_ma = 10;
    for (int32_t c = 0; c < format->channel_count; c++) {
        if (format->channels[c].name == SENSORSIM_RED) {
            s->red = c;
        }
    }
    *out = s;
    return 0;
}

int32_t sensorsim_detector_set(void *out, const char *name, double value) {
    if (BEHAVIOUR == REFUSES_VALUE || strcmp(name, "current_ma") != 0) {
        return 9;
    }
    ((state *)out)->current_ma = value;
    return 0;
}

static void mark(const sensorsim_block *block, sensorsim_answers *answers) {
    sensorsim_mark *m = &answers->marks[answers->mark_count++];
    memset(m, 0, sizeof *m);
    m->kind = SENSORSIM_R_PEAK;
    m->paired_channel = -1;
    m->emitted_tick = block->end_tick;
    m->sample = block->channels[0].run_count > 0 ? block->channels[0].runs[0].first_index : 0;
}

int32_t sensorsim_detector_process(void *out, const sensorsim_block *block, sensorsim_answers *answers) {
    state *s = out;
    if (BEHAVIOUR == SILENT) {
        return 0;
    }
    mark(block, answers);
    if (++s->blocks < 3) {
        return 0;
    }
    switch (BEHAVIOUR) {
    case SEGFAULT:
        *(volatile int *)8 = 1;
        break;
    case ABORT:
        abort();
    case ENDLESS:
        for (volatile int i = 0;; i++) {
        }
    case BABBLING:
        while (answers->mark_count < answers->mark_capacity) {
            mark(block, answers);
        }
        break;
    case FUTURE:
        answers->marks[0].sample += 1000000;
        break;
    case EARLY:
        answers->marks[0].emitted_tick = block->begin_tick - 1;
        break;
#if defined(__x86_64__)
    case DENORMALS:
        _mm_setcsr(_mm_getcsr() | 0x8040);
        break;
    case ROUNDING:
        _mm_setcsr(_mm_getcsr() | 0x4000);
        break;
#endif
    case TOO_MANY:
        answers->mark_count = answers->mark_capacity + 7;
        break;
    case NEGATIVE:
        answers->request_count = -1;
        break;
    case BEYOND:
        memset(answers->marks + answers->mark_capacity, 0, sizeof(sensorsim_mark));
        break;
    case ERROR_CODE:
        return 42;
    case PRINTS:
        printf("a line that disturbs nobody\n");
        fflush(stdout);
        break;
    case ASKS: {
        sensorsim_settings_request *r = &answers->requests[answers->request_count++];
        memset(r, 0, sizeof *r);
        r->channel = s->red;
        r->setting = SENSORSIM_LED_CURRENT_MA;
        r->value_milli = (int32_t)(s->current_ma * 1000);
        break;
    }
    case EXITS:
        exit(3);
    case EXITS_ZERO:
        exit(0);
    case CLOSES_INPUT:
        close(0);
        break;
    case DIVIDES:
        raise(SIGFPE); /* what a division by zero does on some processors */
        break;
    default:
        break;
    }
    return 0;
}

int32_t sensorsim_detector_flush(void *out, sensorsim_answers *answers) {
    (void)out;
    (void)answers;
    return 0;
}

#if BEHAVIOUR != 20 /* NO_CLOSE */
void sensorsim_detector_close(void *out) {
    free(out);
    if (BEHAVIOUR == CRASHES_ON_CLOSE) {
        abort();
    }
    if (BEHAVIOUR == EXITS_ON_CLOSE) {
        exit(0);
    }
    if (BEHAVIOUR == HANGS_ON_CLOSE) {
        for (volatile int i = 0;; i++) {
        }
    }
}
#endif

#if BEHAVIOUR == 17 /* CRASHES_ON_LOAD */
__attribute__((constructor)) static void on_load(void) { abort(); }
#endif
