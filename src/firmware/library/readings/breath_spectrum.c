/* Generated from SensorSim.Detection/Readings/BreathSpectrum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/parabola.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "fixed_point/words.h"
#include "readings/breath_series.h"
#include "readings/breath_spectrum.h"

/* sin(2π n / 120) in Q1.14, a turn and a quarter: the cosine stands a quarter of a turn farther on. */
static const int16_t ss_breath_spectrum_circle[150] = {
    0, 857, 1713, 2563, 3406, 4240, 5063, 5872, 6664, 7438, 8192, 8923,
    9630, 10311, 10963, 11585, 12176, 12733, 13255, 13741, 14189, 14598, 14968, 15296,
    15582, 15826, 16026, 16182, 16294, 16362, 16384, 16362, 16294, 16182, 16026, 15826,
    15582, 15296, 14968, 14598, 14189, 13741, 13255, 12733, 12176, 11585, 10963, 10311,
    9630, 8923, 8192, 7438, 6664, 5872, 5063, 4240, 3406, 2563, 1713, 857,
    0, -857, -1713, -2563, -3406, -4240, -5063, -5872, -6664, -7438, -8192, -8923,
    -9630, -10311, -10963, -11585, -12176, -12733, -13255, -13741, -14189, -14598, -14968, -15296,
    -15582, -15826, -16026, -16182, -16294, -16362, -16384, -16362, -16294, -16182, -16026, -15826,
    -15582, -15296, -14968, -14598, -14189, -13741, -13255, -12733, -12176, -11585, -10963, -10311,
    -9630, -8923, -8192, -7438, -6664, -5872, -5063, -4240, -3406, -2563, -1713, -857,
    0, 857, 1713, 2563, 3406, 4240, 5063, 5872, 6664, 7438, 8192, 8923,
    9630, 10311, 10963, 11585, 12176, 12733, 13255, 13741, 14189, 14598, 14968, 15296,
    15582, 15826, 16026, 16182, 16294, 16362,
};

static void ss_breath_spectrum_shape(const ss_breath_series_t *series, ss_word64_t *shaped);
static ss_breath_spectrum_folded_t ss_breath_spectrum_fold(const ss_word64_t *shaped, int32_t rate);
static int64_t ss_breath_spectrum_power(const ss_breath_spectrum_folded_t *folded, int32_t rate);

ss_breath_spectrum_t ss_breath_spectrum_of(const ss_breath_series_t *series)
{
    ss_word64_t shaped = (ss_word64_t){ 0 };
    ss_breath_spectrum_shape(series, &shaped);
    ss_breath_spectrum_powers_t powers = (ss_breath_spectrum_powers_t){ 0 };
    int64_t largest = INT64_C(0);
    for (int32_t rate = SS_BREATH_SPECTRUM_LOWEST_RATE; rate < (SS_BREATH_SPECTRUM_LOWEST_RATE + 4); rate++) {
        /* Rates of one rest by four share the folded values. */
        ss_breath_spectrum_folded_t folded = ss_breath_spectrum_fold(&shaped, rate);
        for (int32_t r = rate; r <= SS_BREATH_SPECTRUM_HIGHEST_RATE; r += 4) {
            int64_t power = ss_breath_spectrum_power(&folded, r);
            powers.at[r - SS_BREATH_SPECTRUM_LOWEST_RATE] = power;
            largest = (power > largest) ? power : largest;
        }
    }

    int32_t down = ss_wide_bits_uint64((uint64_t)largest) - SS_BREATH_SPECTRUM_POWER_BITS;
    down = (down < 0) ? 0 : down;
    int32_t top = -1;
    int64_t sum = INT64_C(0);
    for (int32_t k = 0; k < SS_BREATH_SPECTRUM_RATES; k++) {
        powers.at[k] = ss_wide_floor(powers.at[k], down);
        sum += powers.at[k];
        bool is_top = (k > 0) && (k < (SS_BREATH_SPECTRUM_RATES - 1)) && ((top < 0) || (powers.at[k] > powers.at[top]));
        top = is_top ? k : top;
    }

    ss_breath_spectrum_t found = (ss_breath_spectrum_t){ 0 };
    if ((top < 0) || (powers.at[top] < powers.at[top - 1]) || (powers.at[top] < powers.at[top + 1]) || (powers.at[top] == INT64_C(0))) {
        return found;
    }

    int64_t near_ = INT64_C(0);
    for (int32_t k = top - SS_BREATH_SPECTRUM_REACH; k <= (top + SS_BREATH_SPECTRUM_REACH); k++) {
        near_ += ((k < 0) || (k >= SS_BREATH_SPECTRUM_RATES)) ? INT64_C(0) : powers.at[k];
    }

    int32_t offset256 = ss_parabola_vertex256((int32_t)powers.at[top - 1], (int32_t)powers.at[top], (int32_t)powers.at[top + 1]);
    found.rate_milli = ((top + SS_BREATH_SPECTRUM_LOWEST_RATE) * 1000) + ss_shift_round(offset256 * 1000, 8);
    int32_t more = ss_wide_bits_uint64((uint64_t)sum) - 31;
    more = (more < 0) ? 0 : more;
    found.clarity = ss_long_division_rounded((uint64_t)ss_wide_floor(near_, more) * UINT64_C(255), (uint32_t)ss_wide_floor(sum, more));
    return found;
}

static void ss_breath_spectrum_shape(const ss_breath_series_t *series, ss_word64_t *shaped)
{
    int32_t sum = 0;
    int32_t tilt = 0;
    for (int32_t n = 0; n < SS_BREATH_SERIES_LENGTH; n++) {
        sum += ss_breath_series_at(series, n);
        tilt += ((2 * n) - 63) * ss_breath_series_at(series, n);
    }

    /* The line: mean sum/64, slope 2 tilt / Σ(2n − 63)² = tilt / 43,680 per half step; Q.12. */
    int32_t rise = ss_long_division_rounded((uint64_t)(uint32_t)ss_sat_abs32(tilt) << 12, UINT32_C(87360));
    rise = (tilt < 0) ? -rise : rise;
    for (int32_t n = 0; n < SS_BREATH_SERIES_LENGTH; n++) {
        int32_t line = ss_shift_round(sum, 2) + ss_shift_round(rise * ((2 * n) - 63), 8);
        shaped->at[n] = ss_shift_round(((ss_breath_series_at(series, n) * 16) - line) * (n * (63 - n)), 4);
    }
}

/*
 * Values whose cosines are the same but for the sign are added first; sums of whole numbers, so the result is the same to the bit. Half a turn
 * of 1 per minute is 60 values: n and 60 − n go together, for even rates n and 30 − n as well.
 */
static ss_breath_spectrum_folded_t ss_breath_spectrum_fold(const ss_word64_t *shaped, int32_t rate)
{
    int32_t half = ((rate & 1) == 0) ? 1 : -1;
    ss_breath_spectrum_folded_t folded = (ss_breath_spectrum_folded_t){ 0 };
    folded.last = 30;
    for (int32_t n = 0; n <= 30; n++) {
        int32_t here = (n < (SS_BREATH_SERIES_LENGTH - 60)) ? (shaped->at[n] + (half * shaped->at[n + 60])) : shaped->at[n];
        int32_t there = ((n == 0) || (n == 30)) ? 0 : (half * shaped->at[60 - n]);
        folded.even.at[n] = here + there;
        folded.odd.at[n] = here - there;
    }

    if ((rate & 1) != 0) {
        return folded;
    }

    int32_t quarter = ((rate & 2) == 0) ? 1 : -1;
    folded.last = 15;
    for (int32_t n = 0; n < 15; n++) {
        folded.even.at[n] += quarter * folded.even.at[30 - n];
        folded.odd.at[n] -= quarter * folded.odd.at[30 - n];
    }

    return folded;
}

static int64_t ss_breath_spectrum_power(const ss_breath_spectrum_folded_t *folded, int32_t rate)
{
    ss_view_int16_t circle = ss_view_int16_of(ss_breath_spectrum_circle, 150);
    int64_t real = INT64_C(0);
    int64_t imaginary = INT64_C(0);
    int32_t phase = 0;
    for (int32_t n = 0; n <= folded->last; n++) {
        real += (int64_t)folded->even.at[n] * (int64_t)circle.at[phase + 30];
        imaginary += (int64_t)folded->odd.at[n] * (int64_t)circle.at[phase];
        phase += rate;
        phase = (phase >= SS_BREATH_SPECTRUM_TURN) ? (phase - SS_BREATH_SPECTRUM_TURN) : phase;
    }

    real = ss_wide_floor(real, 16);
    imaginary = ss_wide_floor(imaginary, 16);
    return (real * real) + (imaginary * imaginary);
}
