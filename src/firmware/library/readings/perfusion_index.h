/* Generated from SensorSim.Detection/Readings/PerfusionIndex.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_PERFUSION_INDEX_H
#define SS_READINGS_PERFUSION_INDEX_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/reading.h"
#include "readings/beat_window.h"
#include "readings/rings.h"

#define SS_PERFUSION_INDEX_MOST 8
#define SS_PERFUSION_INDEX_LEAST 4
/* A sixteenth: one of eight that is half as large again. */
#define SS_PERFUSION_INDEX_UNSTEADY_SHIFT 4

/*
 * Perfusion index: brightest less darkest light of a pulse over the middle of both, mean of eight pulses.
 * Input: fall of the light and light at the minimum of the pulse, 24 bits. Product: amplitude × 200,000, 42 bits. Accumulator: 32 bits for
 * eight values of 18 bits. Worst case: 131 % clips; a level that is not above half the amplitude is refused. Output: thousandths of a per
 * cent, each rounded to 2/1000; one long division per pulse.
 */
struct ss_perfusion_index {
    ss_readings_half8_t values;
    ss_beat_window_t window;
    uint8_t count;
    uint8_t at;
    int32_t milli_percent;
    uint8_t quality;
    /* Whether there are eight pulses, and their mean and median agree within a sixteenth: none of them is out of all proportion. */
    bool is_steady;
};

/* The latest value; quality 0 until there was one. */
static inline ss_reading_t ss_perfusion_index_latest(const ss_perfusion_index_t *self);

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_perfusion_index_start(ss_perfusion_index_t *self, ss_common_clock_t clock);

/*
 * Takes a pulse.
 * pulse: The pulse, with its level.
 * ticks256: Its foot [1/256 tick].
 * Returns: Whether there is a new value.
 */
bool ss_perfusion_index_add(ss_perfusion_index_t *self, const ss_pulse_event_t *pulse, int64_t ticks256);

static inline ss_reading_t ss_perfusion_index_latest(const ss_perfusion_index_t *self)
{
    return ss_reading_make(SS_READING_KIND_PERFUSION_INDEX, self->milli_percent, self->quality, self->window.end256,
        ss_beat_window_length256(&self->window, self->count));
}

#endif
