/* SPDX-License-Identifier: MIT */
/*
 * Which detector the board runs: the library, the small example, or your own (make DETECTOR=FILE.c). Your file defines the two names below:
 * the table of functions (session/board_detector.h) and the address of its state.
 */
#ifndef SS_DETECTOR_H
#define SS_DETECTOR_H

#if defined(SS_DETECTOR_OWN)
#include "board_detector.h"
extern const ss_board_detector ss_own_detector;
extern void *const ss_own_context;
#define SS_DETECTOR (&ss_own_detector)
#define SS_DETECTOR_CONTEXT ss_own_context
#elif defined(SS_DETECTOR_THRESHOLD)
#include "threshold.h"
static threshold ss_detector_state;
#define SS_DETECTOR (&threshold_detector)
#else
#include "library_board.h"
static ss_library_board ss_detector_state;
#define SS_DETECTOR (&ss_library_detector)
#endif

#ifndef SS_DETECTOR_CONTEXT
#define SS_DETECTOR_CONTEXT (&ss_detector_state)
#endif

#endif
