/* SPDX-License-Identifier: MIT */
/*
 * A sensor that is made, not measured: an emulated board has none. It gives waves that look like ECG, red and infrared light and one axis of
 * acceleration, with lead-off, loss of contact and lost samples now and then, so that `record --link` can be tried without hardware.
 * A real board puts its drivers in its place.
 */
#ifndef SS_SAMPLER_H
#define SS_SAMPLER_H

#include <stdint.h>

#include "board_session.h"

typedef struct {
    uint32_t last_us;     /* clock at the last look */
    uint64_t elapsed_us;  /* since the capture began */
    int64_t tick;         /* what has been given so far [1/500 s] */
    uint32_t beat_ms;     /* place within the beat */
    uint32_t beat_length; /* of this beat [ms] */
    uint32_t random;
} ss_sampler;

/* The source of samples for the session. */
extern const ss_board_source ss_sampler_source;

#endif
