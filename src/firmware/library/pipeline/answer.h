/* Generated from SensorSim.Detection/Pipeline/Answer.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_ANSWER_H
#define SS_PIPELINE_ANSWER_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/sample_position.h"

/* What an answer of the library is about. */
enum {
    SS_ANSWER_KIND_R_PEAK = 0, /* R peak; the value is its deviation from the level before the QRS complex [codes]. */
    SS_ANSWER_KIND_FOOT_TANGENT = 1, /* Foot of a pulse by tangents. */
    SS_ANSWER_KIND_FOOT_SECOND_DERIVATIVE = 2, /* Foot of a pulse by the second derivative. */
    SS_ANSWER_KIND_STEEPEST_POINT = 3, /* Steepest point of a pulse. */
    SS_ANSWER_KIND_SYSTOLIC_PEAK = 4, /* Systolic peak of a pulse. */
    SS_ANSWER_KIND_READING = 5, /* A reading; see reading. */
    SS_ANSWER_KIND_GATE_OPEN = 6, /* The gate of the channel has opened. */
    SS_ANSWER_KIND_GATE_SHUT = 7, /* The gate of the channel has shut; the value is the gate_reason. */
    SS_ANSWER_KIND_JOINT_GATE_OPEN = 8, /* The gate of both signals has opened. */
    SS_ANSWER_KIND_JOINT_GATE_SHUT = 9, /* The gate of both signals has shut; the value is the gate_reason. */
    SS_ANSWER_KIND_IRREGULAR_RHYTHM = 10, /* The rhythm is irregular from here on. */
    SS_ANSWER_KIND_REGULAR_RHYTHM = 11 /* The rhythm is regular again. */
};

/* More answers than this cannot come within a tenth of a second. */
#define SS_ANSWER_LIST_MOST 48

/* One answer of the library: integers only, a place in samples of a channel. */
struct ss_answer {
    ss_answer_kind_t kind; /* What it is about. */
    ss_reading_kind_t reading; /* Which reading, when it is one. */
    ss_channel_role_t role; /* The channel that the place counts in. */
    ss_channel_role_t paired_role; /* The channel of what it is paired with (the R peak of an arrival), or none. */
    uint8_t quality; /* Trust, 0 to 255. */
    int32_t value; /* The value: codes of an R peak, number of a reason, thousandths of a reading's unit. */
    ss_sample_position_t place; /* Where. */
    ss_sample_position_t paired; /* Where what it is paired with lies. */
    int64_t window_samples; /* How far the data reach back from the place [samples of the channel]. */
    int64_t emitted_tick; /* End tick of the data seen when it was given. */
};

/* Where the library puts its answers: a list of the caller's. What does not fit is counted. */
struct ss_answer_list {
    ss_room_answer_t answers;
    int32_t count; /* Answers in the list. */
    int32_t lost_count; /* Answers that did not fit. */
};

/*
 * Creates an empty list.
 * room: Where the answers go; most are enough for a tenth of a second.
 */
ss_answer_list_t ss_answer_list_make(ss_room_answer_t room);

/* An answer. */
static inline const ss_answer_t *ss_answer_list_at(const ss_answer_list_t *self, int32_t index);

/*
 * Appends an answer.
 * answer: The answer.
 */
void ss_answer_list_add(ss_answer_list_t *self, const ss_answer_t *answer);

/* Drops all answers. */
void ss_answer_list_clear(ss_answer_list_t *self);

static inline const ss_answer_t *ss_answer_list_at(const ss_answer_list_t *self, int32_t index)
{
    return &self->answers.at[index];
}

#endif
