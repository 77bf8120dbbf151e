/* Generated from SensorSim.Detection/Pulses/PulseNoise.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/integer_root.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/pulse_noise.h"
#include "pulses/pulse_windows.h"
#include "pulses/ranks.h"

static int32_t ss_pulse_noise_magnitudes(const ss_word256_t *held, int32_t at, int32_t count);

void ss_pulse_noise_start(ss_pulse_noise_t *self, const ss_pulse_windows_t *windows)
{
    *self = (ss_pulse_noise_t){ 0 };
    int32_t squares = (windows->watch_arm * (windows->watch_arm + 1) * ((2 * windows->watch_arm) + 1)) / 3;

    /* The slope Σ k x has the deviation σ √Σk²; the mean magnitude of a third difference is √20 σ × √(2/π) = 3.568 σ. */
    int32_t root16 = (int32_t)ss_integer_root_floor((uint32_t)squares << 8);
    self->factor = (root16 * 16 * 1000) / (3568 * windows->noise_block);
}

void ss_pulse_noise_estimate(ss_pulse_noise_t *self, const ss_word256_t *held, int32_t at, const ss_pulse_windows_t *w)
{
    for (int32_t block = 0; block < SS_PULSE_NOISE_BLOCKS_AT_ONCE; block++) {
        self->blocks.at[self->at & (SS_WORD8_LENGTH - 1)] = ss_pulse_noise_magnitudes(held, at - (block * w->noise_block), w->noise_block);
        self->at++;
    }

    int32_t lowest = ss_ranks_of_eight(&self->blocks, 3);
    int32_t shift = ss_shift_needed(lowest, 18);
    uint64_t product = ss_shift_leftu64((uint64_t)(uint32_t)ss_shift_floor(lowest, shift) * (uint64_t)(uint32_t)self->factor, shift);
    self->level = ((product >> 8) > UINT64_C(2147483647)) ? INT32_MAX : (int32_t)(product >> 8);
}

/* Sum of the magnitudes of third differences, back from a place. */
static int32_t ss_pulse_noise_magnitudes(const ss_word256_t *held, int32_t at, int32_t count)
{
    int32_t newest = held->at[at & SS_PULSE_NOISE_MASK];
    int32_t second = held->at[(at - 1) & SS_PULSE_NOISE_MASK];
    int32_t third = held->at[(at - 2) & SS_PULSE_NOISE_MASK];
    int32_t sum = 0;
    for (int32_t i = 3; i < (count + 3); i++) {
        int32_t oldest = held->at[(at - i) & SS_PULSE_NOISE_MASK];
        int32_t difference = ss_sat_abs32(ss_wrap_sub32(ss_wrap_sub32(newest, oldest), ss_wrap_mul32(3, ss_wrap_sub32(second, third))));
        sum += (difference > SS_PULSE_NOISE_LIMIT) ? SS_PULSE_NOISE_LIMIT : difference;
        newest = second;
        second = third;
        third = oldest;
    }

    return sum;
}
