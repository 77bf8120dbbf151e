/* Generated from SensorSim.Detection/Control/SecondMean.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_SECOND_MEAN_H
#define SS_CONTROL_SECOND_MEAN_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/sample_flags.h"
#include "fixed_point/shift.h"

/* Highest rate [Hz]. */
#define SS_SECOND_MEAN_MOST_RATE_HZ 2000

/*
 * Mean level of one optical channel over each second of its own samples, with what the status words say.
 * Input: codes of up to 24 bits, less the code of no light, brought to 16 bits by a shift. Product: none. Accumulator: 32 bits; at most 2,000
 * samples of 17 bits a second: below 2^28. Worst case: rates above 2,000 Hz are refused. Output: mean in codes above no light, 16 bits, floor;
 * one division a second.
 */
struct ss_second_mean {
    int32_t zero;
    int32_t sum;
    int32_t second;
    uint8_t shift;
    uint16_t rate_hz; /* Sampling rate [Hz]; 0 when the channel is not there. */
    uint16_t count; /* Samples so far in the present second. */
    uint16_t room; /* The highest code above that of no light, 16 bits. */
    uint8_t number; /* Number of the settings, as the last sample had it. */
    bool is_mixed; /* Whether the number changed within the second: its mean stands for neither. */
    bool is_clipped; /* Whether a sample of the second was clipped. */
};

/* Whether the channel is there. */
static inline bool ss_second_mean_is_there(const ss_second_mean_t *self);

/*
 * Starts anew.
 * rate_hz: Sampling rate [Hz], 1 to most_rate_hz.
 * zero_code: The code of no light.
 * maximum_code: The highest code, above that.
 * Returns: Whether the channel can be watched.
 */
bool ss_second_mean_start(ss_second_mean_t *self, int32_t rate_hz, int32_t zero_code, int32_t maximum_code);

/*
 * Whether a sample lies after the present second.
 * index: Index of the sample.
 */
static inline bool ss_second_mean_is_over(const ss_second_mean_t *self, int64_t index);

/*
 * Whether the second that holds a sample of a channel of this rate is later than that of this one's latest sample. Divides.
 * index: Index of the sample.
 * rate_hz: Rate of its channel [Hz].
 */
bool ss_second_mean_is_before(const ss_second_mean_t *self, int64_t index, int32_t rate_hz);

/*
 * Takes a sample of the present second.
 * code: Its code.
 * status: Its status word.
 */
static inline void ss_second_mean_take(ss_second_mean_t *self, int32_t code, uint16_t status);

/* Mean level; only when there are samples. Divides. */
int32_t ss_second_mean_mean_of_closed(const ss_second_mean_t *self);

/*
 * Begins the second that holds a sample. Divides.
 * index: Index of the sample.
 */
void ss_second_mean_begin(ss_second_mean_t *self, int64_t index);

static inline bool ss_second_mean_is_there(const ss_second_mean_t *self)
{
    return self->rate_hz > 0;
}

static inline bool ss_second_mean_is_over(const ss_second_mean_t *self, int64_t index)
{
    return index >= (((int64_t)self->second + INT64_C(1)) * (int64_t)self->rate_hz);
}

static inline void ss_second_mean_take(ss_second_mean_t *self, int32_t code, uint16_t status)
{
    uint8_t number = (uint8_t)ss_shift_floor(status, SS_SAMPLE_FLAGS_SETTINGS_SHIFT);
    self->is_mixed = self->is_mixed | ((self->count > 0) && (number != self->number));
    self->is_clipped = self->is_clipped | ((status & SS_SAMPLE_FLAGS_CLIPPED) != 0);
    self->number = number;
    self->sum += ss_shift_floor(code - self->zero, self->shift);
    self->count++;
}

#endif
