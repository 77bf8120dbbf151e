/* SPDX-License-Identifier: MIT */
/* The detection library as the detector of a session. */
#ifndef SS_LIBRARY_BOARD_H
#define SS_LIBRARY_BOARD_H

#include <stdint.h>

#include "board_detector.h"
#include "pipeline/answer.h"
#include "pipeline/library.h"
#include "pipeline/library_options.h"
#include "pipeline/library_setup.h"
#include "pressure/pressure_calibration.h"
#include "pressure/trend_settings.h"
#include "readings/oxygen_table.h"

/*
 * Room for the answers of one slice. SS_ANSWER_LIST_MOST are always enough; a part that is short of memory may take fewer (64 bytes each). Those that
 * find no room are counted and told (trouble 9).
 */
#ifndef SS_LIBRARY_ANSWERS
#define SS_LIBRARY_ANSWERS SS_ANSWER_LIST_MOST
#endif

/* What the library is to be told, gathered from the items of `setup`. */
typedef struct {
    ss_library_options_t options;
    int32_t ratios[SS_OXYGEN_TABLE_MOST_PAIRS];   /* [1/10,000] */
    int32_t percents[SS_OXYGEN_TABLE_MOST_PAIRS]; /* [1/1000 %] */
    uint16_t ratio_told;                          /* bits: pairs whose ratio has come */
    uint16_t percent_told;
    uint8_t pairs; /* that the table shall have; 0: the usual table */
} ss_library_told;

typedef struct {
    ss_library_t library;
    ss_answer_list_t answers;
    int32_t next; /* answer that is fetched next */
    /*
     * The library counts from the whole second of the stream in which it begins: what goes in is less, and what comes out is more by so much.
     * So a board that begins late in a long stream does not walk through all that was before.
     */
    int64_t base_tick;
    int64_t base_sample[SS_LINK_MAX_CHANNELS]; /* by place in the format */
    uint8_t channel_of[SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH]; /* place in the format of each role, SS_LINK_NOT_PAIRED: none */
    /* What was told is needed up to the start, room for answers from then on. */
    union {
        ss_library_told told;
        ss_answer_t answers[SS_LIBRARY_ANSWERS];
    } room;
} ss_library_board;

/* The library's table of functions. Its context is an ss_library_board. */
extern const ss_board_detector ss_library_detector;

/* Nothing told yet: usual values. */
void ss_library_told_begin(ss_library_told *told);

/* One item of `setup`. Returns whether the library knows it and takes the value: the ranges are those of docs/link-protocol.md. */
int ss_library_told_item(ss_library_told *told, uint16_t item, uint16_t index, int64_t value);

/* All is told; returns whether it fits together. */
int ss_library_told_end(ss_library_told *told);

#endif
