/* SPDX-License-Identifier: MIT */
/* Which detector the board runs: the library, or the small example. Yours goes here. */
#ifndef SS_DETECTOR_H
#define SS_DETECTOR_H

#ifdef SS_DETECTOR_THRESHOLD
#include "threshold.h"
static threshold ss_detector_state;
#define SS_DETECTOR (&threshold_detector)
#else
#include "library_board.h"
static ss_library_board ss_detector_state;
#define SS_DETECTOR (&ss_library_detector)
#endif

#define SS_DETECTOR_CONTEXT (&ss_detector_state)

#endif
