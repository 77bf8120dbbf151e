/* Generated from SensorSim.Detection/Readings/RrVariability.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_RR_VARIABILITY_H
#define SS_READINGS_RR_VARIABILITY_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/reading.h"
#include "readings/beat_clock.h"

#define SS_RR_VARIABILITY_BLOCK_MS 10000
#define SS_RR_VARIABILITY_STEPS_PER_SECOND 4000
/* Deviations are taken from one second: those of intervals below 3 s never clip, and their squares fit 32 bits a block. */
#define SS_RR_VARIABILITY_REFERENCE 4000
#define SS_RR_VARIABILITY_LARGEST_DEVIATION 10000
#define SS_RR_VARIABILITY_LONGEST_INTERVAL 12000
#define SS_RR_VARIABILITY_LEAST_INTERVALS 20
#define SS_RR_VARIABILITY_RESTART 5

#define SS_RR_VARIABILITY_BLOCKS_LENGTH 6

struct ss_rr_variability_block {
    int32_t sum;
    uint32_t squares;
    uint32_t differences;
    uint8_t count;
    uint8_t pairs;
    uint8_t seen;
};

struct ss_rr_variability_blocks {
    ss_rr_variability_block_t at[6];
};

/*
 * Mean, SDNN and RMSSD of the normal-to-normal intervals of the last 60 s, every 10 s.
 * A minute, for it is the shortest stretch for which RMSSD is in common use (the Task Force of 1996 asks for 5 minutes; from memory), in six
 * blocks of 10 s, so that memory does not depend on the rate. Left out: intervals beside a beat that is not normal, after a gap, and those
 * more than 20 % off both the accepted interval right before and the running mean of accepted ones (the 20 % rule: Malik et al. 1989, from
 * memory; deep breathing at a high rate needs the first, the interval after an ectopic beat the second). The interval after one that was too
 * short belongs to the early beat too. Five left out in a row are a new rate. RMSSD takes differences of neighbouring accepted intervals only.
 * SDNN divides by n − 1. Input: places in 1/256 tick; intervals become quarters of a millisecond, rounded to nearest. Product: deviation from
 * 1 s, 14 bits, squared: 26 bits. Accumulator: 32 bits a block, saturating; 64 bits over the window, times 62,500. Worst case: intervals below
 * 3 s; differences of neighbours clip at 2.5 s. Output: thousandths of a millisecond; two roots and three long divisions every 10 s, one long
 * division per beat.
 */
struct ss_rr_variability {
    ss_rr_variability_blocks_t blocks;
    ss_beat_clock_t clock;
    int64_t block256;
    int64_t block_end256;
    int64_t last256;
    int32_t mean_us;
    int32_t sdnn_us;
    int32_t rmssd_us;
    int32_t typical;
    int32_t before;
    uint8_t quality;
    uint8_t at;
    uint8_t filled;
    uint8_t outliers;
    bool has_last;
    bool was_normal;
    bool was_early;
    int64_t end256;
};

/* Mean interval; quality 0 until there was one. */
static inline ss_reading_t ss_rr_variability_mean(const ss_rr_variability_t *self);

/* Standard deviation of the intervals, divisor n − 1. */
static inline ss_reading_t ss_rr_variability_sdnn(const ss_rr_variability_t *self);

/* Root mean square of the differences of neighbouring intervals. */
static inline ss_reading_t ss_rr_variability_rmssd(const ss_rr_variability_t *self);

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_rr_variability_start(ss_rr_variability_t *self, ss_common_clock_t clock);

/*
 * Takes a beat.
 * ticks256: Its R peak [1/256 tick].
 * starts_run: Whether there is no interval to it.
 * is_normal: Whether it is neither wide nor paced, and no gap was bridged before it.
 * Returns: Whether there are new values.
 */
bool ss_rr_variability_add_3(ss_rr_variability_t *self, int64_t ticks256, bool starts_run, bool is_normal);

ss_reading_t ss_rr_variability_say(const ss_rr_variability_t *self, ss_reading_kind_t kind, int32_t value_us);

static inline ss_reading_t ss_rr_variability_mean(const ss_rr_variability_t *self)
{
    return ss_rr_variability_say(self, SS_READING_KIND_RR_MEAN, self->mean_us);
}

static inline ss_reading_t ss_rr_variability_sdnn(const ss_rr_variability_t *self)
{
    return ss_rr_variability_say(self, SS_READING_KIND_SDNN, self->sdnn_us);
}

static inline ss_reading_t ss_rr_variability_rmssd(const ss_rr_variability_t *self)
{
    return ss_rr_variability_say(self, SS_READING_KIND_RMSSD, self->rmssd_us);
}

#endif
