/* Generated from SensorSim.Detection/Pulses/SampleMarks.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/sample_marks.h"

static bool ss_sample_marks_is_set(const ss_sample_marks_t *self, int32_t at);

void ss_sample_marks_put(ss_sample_marks_t *self, int32_t at, bool is_marked)
{
    self->left = (self->left > 0) ? (self->left - 1) : 0;
    if (is_marked) {
        self->bits.at[ss_shift_floor(at, 5) & SS_SAMPLE_MARKS_WORD_MASK] |= ss_shift_left32(1, at & 31);
        self->left = SS_WORD256_LENGTH;
    }
    else {
        self->bits.at[ss_shift_floor(at, 5) & SS_SAMPLE_MARKS_WORD_MASK] &= ~ss_shift_left32(1, at & 31);
    }
}

int32_t ss_sample_marks_count_clear(const ss_sample_marks_t *self, int32_t from, int32_t most)
{
    int32_t count = 0;
    while ((count < most) && !ss_sample_marks_is_set(self, (from + count) & SS_SAMPLE_MARKS_MASK)) {
        count++;
    }

    return count;
}

static bool ss_sample_marks_is_set(const ss_sample_marks_t *self, int32_t at)
{
    return (self->bits.at[ss_shift_floor(at, 5) & SS_SAMPLE_MARKS_WORD_MASK] & ss_shift_left32(1, at & 31)) != 0;
}
