/* Generated from SensorSim.Detection/Beats/QrsEnergy.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_QRS_ENERGY_H
#define SS_BEATS_QRS_ENERGY_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "beats/beat_sum.h"

#define SS_QRS_ENERGY_CEILING 33554431

/*
 * Second stage: magnitude of the band-passed signal, integrated over 100 ms. One hump for each QRS complex.
 * Input: 32 bits of band-pass. Product: none (magnitude instead of square: half the bits, and a tall beat hides its small neighbour less).
 * Accumulator: 32 bits; magnitudes clipped at 2^25 − 1, at most 26 of them. Worst case: 26 × 2^25 below 2^30; clipping starts above 0.3 V at 1
 * µV a code. Output: 31 bits, exact sum, delay (length − 1) / 2.
 */
struct ss_qrs_energy {
    ss_beat_sum_t sum;
};

/*
 * Starts from silence.
 * windows: Lengths.
 */
void ss_qrs_energy_restart(ss_qrs_energy_t *self, const ss_beat_windows_t *windows);

/*
 * Takes the next band-passed value.
 * value: The value.
 * Returns: Integrated magnitude.
 */
static inline int32_t ss_qrs_energy_next(ss_qrs_energy_t *self, int32_t value);

static inline int32_t ss_qrs_energy_next(ss_qrs_energy_t *self, int32_t value)
{
    int32_t magnitude = (value < 0) ? ss_wrap_neg32(value) : value;

    /* Unsigned comparison: the lowest word, whose magnitude does not fit, clips as well. */
    return ss_beat_sum_next(&self->sum, ((uint32_t)magnitude > (uint32_t)SS_QRS_ENERGY_CEILING) ? SS_QRS_ENERGY_CEILING : magnitude);
}

#endif
