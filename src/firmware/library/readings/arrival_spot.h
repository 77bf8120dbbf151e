/* Generated from SensorSim.Detection/Readings/ArrivalSpot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_ARRIVAL_SPOT_H
#define SS_READINGS_ARRIVAL_SPOT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/reading.h"
#include "readings/rings.h"

#define SS_ARRIVAL_SPOT_BLOCK_MS 5000
#define SS_ARRIVAL_SPOT_BLOCKS 6
#define SS_ARRIVAL_SPOT_LEAST 20
#define SS_ARRIVAL_SPOT_STEPS 3

/*
 * Spot arrival time: the median of at least 20 paired beats of the last 30 s, and their spread; every 5 s.
 * Six blocks of 5 s. Above 96 pairs a minute the 48 places do not hold 30 s: the oldest blocks are dropped whole and the window says so. The
 * spread is the distance of the quartiles over 1.349, which for a normal law is its standard deviation (textbook) and which strays do not
 * move. Trust: 255 less 32 for each ms of the median's own uncertainty, 1.25 × spread / √n (textbook), in steps of 1/32 ms; 0 is never said.
 * Input: thousandths of a millisecond, below 524,288. Product: quartile distance × 48,577 (1 / 1.349 in Q0.16), 32 bits unsigned. Accumulator:
 * 16 bits in steps of 8 µs, rounded to nearest. Worst case: 48 numbers sorted by insertion, every 5 s. Output: thousandths of a millisecond,
 * within 4 µs.
 */
struct ss_arrival_spot {
    ss_half48_t times;
    ss_byte8_t counts;
    int64_t block256;
    int64_t block_end256;
    int64_t end256;
    int64_t last256;
    int64_t length256;
    int32_t median_us;
    int32_t spread_us;
    uint8_t at;
    uint8_t held;
    uint8_t blocks;
    uint8_t quality;
};

/* The median; quality 0 until there was one. */
static inline ss_reading_t ss_arrival_spot_latest(const ss_arrival_spot_t *self);

/* The spread of the beats that it is made of, as a standard deviation. */
ss_reading_t ss_arrival_spot_spread(const ss_arrival_spot_t *self);

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_arrival_spot_start(ss_arrival_spot_t *self, ss_common_clock_t clock);

/*
 * Takes an arrival time.
 * arrival: The reading of one beat.
 * Returns: Whether there is a new value.
 */
bool ss_arrival_spot_add(ss_arrival_spot_t *self, const ss_reading_t *arrival);

static inline ss_reading_t ss_arrival_spot_latest(const ss_arrival_spot_t *self)
{
    return ss_reading_make(SS_READING_KIND_ARRIVAL_SPOT, self->median_us, self->quality, self->end256, self->length256);
}

#endif
