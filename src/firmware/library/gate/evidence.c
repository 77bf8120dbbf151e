/* Generated from SensorSim.Detection/Gate/Evidence.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "gate/evidence.h"
#include "gate/gate_time.h"
#include "gate/half8.h"

static int16_t ss_evidence_scale(int32_t height);

bool ss_evidence_is_silent(const ss_evidence_t *self, const ss_gate_time_t *time, int64_t ticks256)
{
    int32_t due = (self->interval_count == 0) ? ss_gate_time_from_ms(time, SS_EVIDENCE_LONGEST_MS)
        : ((2 * ss_evidence_interval(self)) + ss_shift_floor(ss_evidence_interval(self), 2));
    return ss_gate_time_units(time, ticks256 - self->last256) > (due + ss_gate_time_from_ms(time, SS_EVIDENCE_LATE_MS));
}

bool ss_evidence_has_cut(const ss_evidence_t *self)
{
    bool has = false;
    for (int32_t i = 1; i < self->interval_count; i++) {
        has = has | ss_evidence_is_cut_at(self, i);
    }

    return has;
}

bool ss_evidence_has_break(const ss_evidence_t *self)
{
    bool has = false;
    for (int32_t i = 1; i < self->interval_count; i++) {
        has = has | ss_evidence_is_broken_at(self, i);
    }

    return has;
}

void ss_evidence_clear(ss_evidence_t *self)
{
    *self = (ss_evidence_t){ 0 };
}

void ss_evidence_forget_heights(ss_evidence_t *self)
{
    self->height_count = 0;
    self->height_faults = 0;
}

void ss_evidence_add(ss_evidence_t *self, const ss_gate_time_t *time, int64_t ticks256, int32_t height, bool starts_run)
{
    bool had_interval = (self->interval_count > 0) && !starts_run;
    if ((self->height_count > 0) && !starts_run) {
        int32_t units = ss_gate_time_units(time, ticks256 - self->last256);
        self->intervals.at[self->interval_at] = (int16_t)((units > 32767) ? 32767 : (int16_t)units);
        self->interval_at = (uint8_t)((self->interval_at + 1) & SS_EVIDENCE_MASK);
        self->interval_count = (uint8_t)(self->interval_count + ((self->interval_count < SS_GATE_HALF8_LENGTH) ? 1 : 0));
    }

    self->last256 = ticks256;
    self->heights.at[self->height_at] = ss_evidence_scale(height);
    self->height_at = (uint8_t)((self->height_at + 1) & SS_EVIDENCE_MASK);
    self->height_count = (uint8_t)(self->height_count + ((self->height_count < SS_GATE_HALF8_LENGTH) ? 1 : 0));
    ss_evidence_weigh(self, had_interval);
}

int64_t ss_evidence_back(const ss_evidence_t *self, const ss_gate_time_t *time, int32_t intervals)
{
    int32_t sum = 0;
    for (int32_t i = 1; (i <= intervals) && (i <= self->interval_count); i++) {
        sum += ss_evidence_interval_back(self, i) + 1;
    }

    return self->last256 - ss_gate_time_ticks256(time, sum);
}

/* A height on a scale of 1/64 octave, its sign kept. */
static int16_t ss_evidence_scale(int32_t height)
{
    int32_t magnitude = (height == 0) ? 1 : ss_sat_abs32(height);
    int32_t exponent = ss_shift_needed(magnitude, 1);
    int32_t scaled = (exponent * 64) + 1 + ((exponent > 6) ? (ss_shift_floor(magnitude, exponent - 6) - 64)
        : (ss_shift_left32(magnitude, 6 - exponent) - 64));
    return (int16_t)((height < 0) ? -scaled : scaled);
}

bool ss_evidence_is_alike(int32_t height, int32_t other)
{
    return ss_sat_abs32(height - other) <= SS_EVIDENCE_HEIGHT_REACH;
}

bool ss_evidence_is_near(int32_t value, int32_t of)
{
    return ((16 * (value - of)) <= (3 * of)) && ((16 * (of - value)) <= (3 * of));
}

int32_t ss_evidence_typical_height(const ss_evidence_t *self)
{
    ss_gate_half8_t magnitudes = (ss_gate_half8_t){ 0 };
    int32_t positive = 0;
    for (int32_t i = 0; i < self->height_count; i++) {
        magnitudes.at[i] = (int16_t)ss_sat_abs32(self->heights.at[i]);
        positive += (self->heights.at[i] > 0) ? 1 : -1;
    }

    int32_t median = ss_evidence_median_of(&magnitudes, self->height_count);
    return (positive < 0) ? -median : median;
}

int32_t ss_evidence_median_of(const ss_gate_half8_t *values, int32_t count)
{
    if (count == 0) {
        return 0;
    }

    ss_word8_t words = (ss_word8_t){ 0 };
    for (int32_t i = 0; i < count; i++) {
        words.at[i] = values->at[i];
    }

    return ss_median_of_up_to8(ss_view_int32_slice(ss_view_int32_of(words.at, 8), 0, count));
}
