/* Generated from SensorSim.Detection/Pipeline/Answer.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pipeline/answer.h"

ss_answer_list_t ss_answer_list_make(ss_room_answer_t room)
{
    ss_answer_list_t made = { 0 };
    ss_answer_list_t *const self = &made;
    self->answers = room;
    self->count = 0;
    self->lost_count = 0;
    return made;
}

void ss_answer_list_add(ss_answer_list_t *self, const ss_answer_t *answer)
{
    if (self->count == self->answers.length) {
        self->lost_count++;
        return;
    }

    int32_t count_value = self->count;
    self->count++;
    self->answers.at[count_value] = (*answer);
}

void ss_answer_list_clear(ss_answer_list_t *self)
{
    self->count = 0;
}
