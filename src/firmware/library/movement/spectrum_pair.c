/* Generated from SensorSim.Detection/Movement/SpectrumPair.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "fixed_point/words.h"
#include "movement/fft256.h"
#include "movement/half_ring.h"
#include "movement/sine_table.h"
#include "movement/spectrum_pair.h"

static int32_t ss_spectrum_pair_spare(int64_t highest);
static int64_t ss_spectrum_pair_first_power(const ss_spectrum_pair_t *self, int32_t k);
static int64_t ss_spectrum_pair_second_power(const ss_spectrum_pair_t *self, int32_t k);

void ss_spectrum_pair_make(ss_spectrum_pair_t *self, const ss_half_ring_t *first, const ss_half_ring_t *second, int32_t length,
    int32_t hann_step16)
{
    self->first = (ss_word256_t){ 0 };
    self->second = (ss_word256_t){ 0 };
    for (int32_t i = 0; i < length; i++) {
        /* Hann window: the square of half a sine. */
        int32_t sine = ss_sine_table_fine((hann_step16 * i) + ss_shift_right32(hann_step16, 1));
        int32_t hann = ss_shift_round(sine * sine, 15);
        int32_t at = ss_fft256_reversed(i);
        self->first.at[at] = ss_shift_round(ss_half_ring_at(first, i) * hann, 11);
        self->second.at[at] = ss_shift_round(ss_half_ring_at(second, i) * hann, 11);
    }

    ss_fft256_transform(&self->first, &self->second);
    int64_t highest_first = INT64_C(0);
    int64_t highest_second = INT64_C(0);
    for (int32_t k = 1; k < SS_SPECTRUM_PAIR_BINS; k++) {
        int64_t power = ss_spectrum_pair_first_power(self, k);
        highest_first = (power > highest_first) ? power : highest_first;
        power = ss_spectrum_pair_second_power(self, k);
        highest_second = (power > highest_second) ? power : highest_second;
    }

    int32_t first_shift = ss_spectrum_pair_spare(highest_first);
    int32_t second_shift = ss_spectrum_pair_spare(highest_second);
    for (int32_t k = 1; k < SS_SPECTRUM_PAIR_BINS; k++) {
        /* In place: bin 256 − k, which each needs as well, stays as it is. */
        int32_t power = (int32_t)ss_wide_shifted(ss_spectrum_pair_first_power(self, k), -first_shift);
        self->second.at[k] = (int32_t)ss_wide_shifted(ss_spectrum_pair_second_power(self, k), -second_shift);
        self->first.at[k] = power;
    }

    self->relative_shift = second_shift + (2 * second->exponent) - first_shift - (2 * first->exponent);
}

void ss_spectrum_pair_spread(ss_spectrum_pair_t *self)
{
    int32_t before = 0;
    for (int32_t k = 1; k < (SS_SPECTRUM_PAIR_BINS - 1); k++) {
        int32_t here = self->second.at[k];
        int32_t highest = (before > here) ? before : here;
        highest = (self->second.at[k + 1] > highest) ? self->second.at[k + 1] : highest;
        self->second.at[k] = ss_wide_narrow(ss_wide_shifted((int64_t)highest, self->relative_shift), INT32_MAX);
        before = here;
    }
}

static int32_t ss_spectrum_pair_spare(int64_t highest)
{
    return ss_wide_bits_int64(highest) - SS_SPECTRUM_PAIR_POWER_BITS;
}

/* Z = A + jB of two real signals: 2 A(k) = Z(k) + conj Z(−k), 2j B(k) = Z(k) − conj Z(−k). */
static int64_t ss_spectrum_pair_first_power(const ss_spectrum_pair_t *self, int32_t k)
{
    int64_t real = (int64_t)self->first.at[k] + (int64_t)self->first.at[SS_FFT256_LENGTH - k];
    int64_t imaginary = (int64_t)self->second.at[k] - (int64_t)self->second.at[SS_FFT256_LENGTH - k];
    return (real * real) + (imaginary * imaginary);
}

static int64_t ss_spectrum_pair_second_power(const ss_spectrum_pair_t *self, int32_t k)
{
    int64_t real = (int64_t)self->second.at[k] + (int64_t)self->second.at[SS_FFT256_LENGTH - k];
    int64_t imaginary = (int64_t)self->first.at[SS_FFT256_LENGTH - k] - (int64_t)self->first.at[k];
    return (real * real) + (imaginary * imaginary);
}
