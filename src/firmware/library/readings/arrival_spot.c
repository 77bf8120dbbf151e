/* Generated from SensorSim.Detection/Readings/ArrivalSpot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "fixed_point/integer_root.h"
#include "fixed_point/long_division.h"
#include "fixed_point/shift.h"
#include "readings/arrival_spot.h"
#include "readings/rings.h"

static void ss_arrival_spot_next_block(ss_arrival_spot_t *self);
static void ss_arrival_spot_drop(ss_arrival_spot_t *self);
static bool ss_arrival_spot_evaluate(ss_arrival_spot_t *self);
static int32_t ss_arrival_spot_quantile(const ss_half48_t *sorted, int32_t quarters);

ss_reading_t ss_arrival_spot_spread(const ss_arrival_spot_t *self)
{
    ss_reading_t changed = ss_arrival_spot_latest(self);
    changed.kind = SS_READING_KIND_ARRIVAL_SPREAD;
    changed.value_milli = self->spread_us;
    return changed;
}

void ss_arrival_spot_start(ss_arrival_spot_t *self, ss_common_clock_t clock)
{
    *self = (ss_arrival_spot_t){ 0 };
    self->block256 = ss_common_clock_ticks256(clock, SS_ARRIVAL_SPOT_BLOCK_MS);
}

bool ss_arrival_spot_add(ss_arrival_spot_t *self, const ss_reading_t *arrival)
{
    bool is_new = false;
    if (self->block_end256 == INT64_C(0)) {
        self->block_end256 = arrival->ticks256 + self->block256;
        self->blocks = 1;
    }

    if (arrival->ticks256 >= self->block_end256) {
        /* What the block brought is judged once, unless the pair after it comes so late that it is old; after a long silence */
        /* nothing of before is left. */
        is_new = ((arrival->ticks256 - self->last256) < self->block256) && ss_arrival_spot_evaluate(self);
        bool is_long = (arrival->ticks256 - self->block_end256) >= (self->block256 * (int64_t)SS_ARRIVAL_SPOT_BLOCKS);
        self->blocks = (uint8_t)(is_long ? 1 : self->blocks);
        self->held = (uint8_t)(is_long ? 0 : self->held);
        self->counts.at[0] = (uint8_t)(is_long ? 0 : self->counts.at[0]);
        self->block_end256 = is_long ? (arrival->ticks256 + self->block256) : self->block_end256;
        while (arrival->ticks256 >= self->block_end256) {
            ss_arrival_spot_next_block(self);
        }
    }

    /* The oldest block may be empty, after a silence: then dropping it makes no room. */
    while (self->held == SS_HALF48_LENGTH) {
        ss_arrival_spot_drop(self);
    }

    self->times.at[self->at] = (uint16_t)ss_shift_round(arrival->value_milli, SS_ARRIVAL_SPOT_STEPS);
    self->at = (uint8_t)(((self->at + 1) == SS_HALF48_LENGTH) ? 0 : (self->at + 1));
    self->held++;
    self->counts.at[self->blocks - 1]++;
    self->last256 = arrival->ticks256;
    return is_new;
}

static void ss_arrival_spot_next_block(ss_arrival_spot_t *self)
{
    self->block_end256 += self->block256;
    if (self->blocks == SS_ARRIVAL_SPOT_BLOCKS) {
        ss_arrival_spot_drop(self);
    }

    self->counts.at[self->blocks] = 0;
    self->blocks++;
}

/* Drops the oldest block. */
static void ss_arrival_spot_drop(ss_arrival_spot_t *self)
{
    self->held = (uint8_t)(self->held - self->counts.at[0]);
    for (int32_t i = 1; i < self->blocks; i++) {
        self->counts.at[i - 1] = self->counts.at[i];
    }

    self->blocks--;
    if (self->blocks == 0) {
        /* More beats in one block than there is room for: what is kept starts here. */
        self->blocks = 1;
        self->counts.at[0] = 0;
        self->held = 0;
    }
}

static bool ss_arrival_spot_evaluate(ss_arrival_spot_t *self)
{
    if (self->held < SS_ARRIVAL_SPOT_LEAST) {
        return false;
    }

    ss_half48_t sorted = (ss_half48_t){ 0 };
    for (int32_t i = 0; i < self->held; i++) {
        int32_t from = self->at - self->held + i;
        uint16_t value = self->times.at[(from < 0) ? (from + SS_HALF48_LENGTH) : from];
        int32_t to = i;
        while ((to > 0) && (sorted.at[to - 1] > value)) {
            sorted.at[to] = sorted.at[to - 1];
            to--;
        }

        sorted.at[to] = value;
    }

    int32_t middle = ss_shift_floor(self->held, 1);
    self->median_us = ss_shift_left32(((self->held & 1) != 0) ? (2 * sorted.at[middle]) : (sorted.at[middle] + sorted.at[middle - 1]),
        SS_ARRIVAL_SPOT_STEPS - 1);
    int32_t lower = ss_arrival_spot_quantile(&sorted, self->held - 1);
    int32_t upper = ss_arrival_spot_quantile(&sorted, 3 * (self->held - 1));
    self->spread_us = (int32_t)(((uint64_t)(uint32_t)(upper - lower) * UINT64_C(48577)) >> 16);

    /* It ends at a pair: behind it contact may be lost. */
    self->end256 = self->last256;
    self->length256 = (self->block256 * (int64_t)self->blocks) - (self->block_end256 - self->last256);

    /* 1.25 × spread / √n in 1/32 ms: spread × 5/4 × 32/1000 / √n = spread / (25 √n); √n in Q4.4. */
    uint32_t root = ss_integer_root_floor((uint32_t)self->held << 8);
    int32_t uncertain = ss_long_division_rounded((uint64_t)(uint32_t)self->spread_us * UINT64_C(16), UINT32_C(25) * root);
    self->quality = (uint8_t)((uncertain > 254) ? 1 : (255 - uncertain));
    return true;
}

/* Value at a place given in quarters, with a straight line between two [1/1000 ms]. */
static int32_t ss_arrival_spot_quantile(const ss_half48_t *sorted, int32_t quarters)
{
    int32_t place = ss_shift_floor(quarters, 2);
    int32_t rest = quarters & 3;
    int32_t next = (rest == 0) ? sorted->at[place] : sorted->at[place + 1];
    return ss_shift_left32((sorted->at[place] * (4 - rest)) + (next * rest), SS_ARRIVAL_SPOT_STEPS - 2);
}
