/* Generated from SensorSim.Detection/Readings/RrVariability.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "readings/beat_clock.h"
#include "readings/rr_variability.h"

static uint32_t ss_rr_variability_add_2(uint32_t sum, uint32_t value);
static bool ss_rr_variability_is_typical(ss_rr_variability_t *self, int32_t interval);
static bool ss_rr_variability_close(ss_rr_variability_t *self);
static bool ss_rr_variability_evaluate(ss_rr_variability_t *self);

void ss_rr_variability_start(ss_rr_variability_t *self, ss_common_clock_t clock)
{
    *self = (ss_rr_variability_t){ 0 };
    ss_beat_clock_start(&self->clock, clock);
    self->block256 = ss_common_clock_ticks256(clock, SS_RR_VARIABILITY_BLOCK_MS);
}

bool ss_rr_variability_add_3(ss_rr_variability_t *self, int64_t ticks256, bool starts_run, bool is_normal)
{
    bool is_new = false;
    if (!self->has_last) {
        self->block_end256 = ticks256 + self->block256;
    }

    if (ticks256 >= (self->block_end256 + (self->block256 * (int64_t)SS_RR_VARIABILITY_BLOCKS_LENGTH))) {
        /* After a minute of silence nothing of before is left. */
        self->blocks = (ss_rr_variability_blocks_t){ 0 };
        self->filled = 0;
        self->block_end256 = ticks256 + self->block256;
    }

    while (ticks256 >= self->block_end256) {
        is_new = is_new | ss_rr_variability_close(self);
    }

    int32_t interval = self->has_last ? ss_beat_clock_steps(&self->clock, ss_beat_clock_span(&self->clock, self->last256, ticks256),
        SS_RR_VARIABILITY_STEPS_PER_SECOND) : 0;
    bool is_candidate = !starts_run && self->has_last && is_normal && self->was_normal && (interval > 0)
        && (interval < SS_RR_VARIABILITY_LONGEST_INTERVAL);
    self->last256 = ticks256;
    self->has_last = true;
    self->was_normal = is_normal;
    ss_rr_variability_block_t *block = &self->blocks.at[self->at];
    block->seen = (uint8_t)((block->seen < 255) ? (block->seen + 1) : 255);
    if (!is_candidate || !ss_rr_variability_is_typical(self, interval)) {
        self->before = 0;
        return is_new;
    }

    int32_t deviation = interval - SS_RR_VARIABILITY_REFERENCE;
    block->sum += deviation;
    block->squares = ss_rr_variability_add_2(block->squares, (uint32_t)(deviation * deviation));
    block->count++;
    if (self->before != 0) {
        int32_t difference = ss_sat_narrow(interval - self->before, SS_RR_VARIABILITY_LARGEST_DEVIATION);
        block->differences = ss_rr_variability_add_2(block->differences, (uint32_t)(difference * difference));
        block->pairs++;
    }

    self->before = interval;
    return is_new;
}

static uint32_t ss_rr_variability_add_2(uint32_t sum, uint32_t value)
{
    return (sum > (UINT32_C(4294967295) - value)) ? UINT32_C(4294967295) : (sum + value);
}

static bool ss_rr_variability_is_typical(ss_rr_variability_t *self, int32_t interval)
{
    bool is_near_mean = (self->typical == 0) || ((ss_sat_abs32(interval - self->typical) * 5) <= self->typical);
    bool is_near_last = (self->before != 0) && ((ss_sat_abs32(interval - self->before) * 5) <= self->before);
    bool is_beside = self->was_early;
    self->was_early = !is_near_mean && !is_near_last && (interval < self->typical);
    if ((!is_near_mean && !is_near_last) || is_beside) {
        self->outliers++;
        if (self->outliers >= SS_RR_VARIABILITY_RESTART) {
            self->outliers = 0;
            self->typical = interval;
        }

        return false;
    }

    self->outliers = 0;
    self->typical = (self->typical == 0) ? interval : (self->typical + ss_shift_round(interval - self->typical, 2));
    return true;
}

static bool ss_rr_variability_close(ss_rr_variability_t *self)
{
    self->filled = (uint8_t)((self->filled < SS_RR_VARIABILITY_BLOCKS_LENGTH) ? (self->filled + 1) : SS_RR_VARIABILITY_BLOCKS_LENGTH);
    bool is_given = (self->filled == SS_RR_VARIABILITY_BLOCKS_LENGTH) && ss_rr_variability_evaluate(self);
    self->at = (uint8_t)(((self->at + 1) == SS_RR_VARIABILITY_BLOCKS_LENGTH) ? 0 : (self->at + 1));
    self->blocks.at[self->at] = (ss_rr_variability_block_t){ 0 };
    self->end256 = is_given ? self->block_end256 : self->end256;
    self->block_end256 += self->block256;
    return is_given;
}

static bool ss_rr_variability_evaluate(ss_rr_variability_t *self)
{
    int64_t sum = INT64_C(0);
    uint64_t squares = UINT64_C(0);
    uint64_t differences = UINT64_C(0);
    uint32_t count = UINT32_C(0);
    uint32_t pairs = UINT32_C(0);
    uint32_t seen = UINT32_C(0);
    for (int32_t i = 0; i < SS_RR_VARIABILITY_BLOCKS_LENGTH; i++) {
        const ss_rr_variability_block_t *block = &self->blocks.at[i];
        sum += (int64_t)block->sum;
        squares += (uint64_t)block->squares;
        differences += (uint64_t)block->differences;
        count += (uint32_t)block->count;
        pairs += (uint32_t)block->pairs;
        seen += (uint32_t)block->seen;
    }

    /* Where half of the intervals are left out, what remains says nothing about the rhythm. */
    if ((count < (uint32_t)SS_RR_VARIABILITY_LEAST_INTERVALS) || (pairs == UINT32_C(0)) || ((UINT32_C(2) * count) < seen)) {
        return false;
    }

    /* In quarters of a millisecond; 250 and 250² make thousandths. */
    bool is_below = sum < INT64_C(0);
    int32_t mean = (int32_t)ss_wide_divide((uint64_t)(is_below ? -sum : sum) * UINT64_C(250), count);
    self->mean_us = (SS_RR_VARIABILITY_REFERENCE * 250) + (is_below ? -mean : mean);
    uint64_t spread = (squares * (uint64_t)count) - (uint64_t)(sum * sum);
    int32_t shift = ss_wide_bits_uint64(spread) - 46;
    shift = (shift < 0) ? 0 : shift;
    uint64_t variance = ss_wide_divide(ss_shift_rightu64(spread, shift) * UINT64_C(62500), count * (count - UINT32_C(1)));
    self->sdnn_us = (int32_t)ss_wide_root(ss_shift_leftu64(variance, shift));
    self->rmssd_us = (int32_t)ss_wide_root(ss_wide_divide(differences * UINT64_C(62500), pairs));

    /* All intervals used are worth 255, half of them nothing. */
    self->quality = (uint8_t)ss_long_division_rounded(UINT64_C(255) * (uint64_t)((UINT32_C(2) * ((count < seen) ? count : seen)) - seen),
        seen);
    return true;
}

ss_reading_t ss_rr_variability_say(const ss_rr_variability_t *self, ss_reading_kind_t kind, int32_t value_us)
{
    return ss_reading_make(kind, value_us, self->quality, self->end256, self->block256 * (int64_t)SS_RR_VARIABILITY_BLOCKS_LENGTH);
}
