/* SPDX-License-Identifier: MIT */
#ifndef THRESHOLD_H
#define THRESHOLD_H

#include "board_detector.h"

#define THRESHOLD_RING 64

typedef struct {
    int32_t channel; /* place of the ECG in the format */
    int32_t rate_hz;
    int64_t ticks_per_sample;
    int32_t refractory_ms;
    int32_t threshold_percent;
    int32_t lag;                   /* samples between the two that are compared */
    int32_t codes[THRESHOLD_RING]; /* the latest codes, by sample index modulo THRESHOLD_RING */
    int64_t next;                  /* index of the sample that follows without a gap; -1: none yet */
    int64_t seen;                  /* samples since the start or the latest gap */
    int64_t peak;                  /* running peak of the steepness, in 1/16 */
    int64_t last;                  /* sample of the latest mark */
    int64_t best;                  /* place of the steepest rise while above the threshold; -1: below */
    int32_t steepest;
    int64_t now;  /* tick up to which all is taken */
    int has_mark; /* whether the mark below waits to be fetched */
    ss_link_mark mark;
} threshold;

/* The example as a detector of the session. Its context is a threshold. */
extern const ss_board_detector threshold_detector;

#endif
