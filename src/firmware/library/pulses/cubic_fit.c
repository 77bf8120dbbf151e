/* Generated from SensorSim.Detection/Pulses/CubicFit.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/cubic_fit.h"

static int32_t ss_cubic_fit_clipped(int32_t difference, int32_t shift);
static int16_t ss_cubic_fit_rounded(int64_t numerator, int64_t denominator);

void ss_cubic_fit_restart(ss_cubic_fit_t *self, int32_t arm)
{
    self->arm = arm;
    int64_t n = (int64_t)((2 * arm) + 1);
    int64_t s2 = INT64_C(0);
    int64_t s4 = INT64_C(0);
    int64_t s6 = INT64_C(0);
    for (int64_t k = INT64_C(1); k <= (int64_t)arm; k++) {
        s2 += INT64_C(2) * k * k;
        s4 += INT64_C(2) * k * k * k * k;
        s6 += INT64_C(2) * k * k * k * k * k * k;
    }

    /* Normal equations of the odd part (k, k³) and the even part (1, k²), solved in closed form. */
    int64_t odd = (s2 * s6) - (s4 * s4);
    int64_t even = (n * s4) - (s2 * s2);
    for (int64_t k = INT64_C(0); k <= (int64_t)arm; k++) {
        self->slope.at[(int32_t)k] = ss_cubic_fit_rounded((s6 * k) - (s4 * k * k * k), odd);
        self->level.at[(int32_t)k] = ss_cubic_fit_rounded(s4 - (s2 * k * k), even);
    }
}

int32_t ss_cubic_fit_slope(const ss_cubic_fit_t *self, const ss_word256_t *held, int32_t at, int32_t shift)
{
    int32_t sum = 0;
    for (int32_t k = 1; k <= self->arm; k++) {
        sum += self->slope.at[k & (SS_CUBIC_FIT_WEIGHTS16_LENGTH - 1)] * ss_cubic_fit_clipped(held->at[(at + k) & SS_CUBIC_FIT_MASK]
            - held->at[(at - k) & SS_CUBIC_FIT_MASK], shift);
    }

    return sum;
}

int32_t ss_cubic_fit_level(const ss_cubic_fit_t *self, const ss_word256_t *held, int32_t at, int32_t reference, int32_t shift)
{
    int32_t sum = self->level.at[0] * ss_cubic_fit_clipped(held->at[at & SS_CUBIC_FIT_MASK] - reference, shift);
    for (int32_t k = 1; k <= self->arm; k++) {
        int32_t pair = ss_cubic_fit_clipped(held->at[(at + k) & SS_CUBIC_FIT_MASK] - reference, shift)
            + ss_cubic_fit_clipped(held->at[(at - k) & SS_CUBIC_FIT_MASK] - reference, shift);
        sum += self->level.at[k & (SS_CUBIC_FIT_WEIGHTS16_LENGTH - 1)] * pair;
    }

    return sum;
}

/* What lies outside of the stretch that the shift was found for may be larger: it clips. */
static int32_t ss_cubic_fit_clipped(int32_t difference, int32_t shift)
{
    return ss_sat_narrow(ss_shift_round(difference, shift), 32767);
}

static int16_t ss_cubic_fit_rounded(int64_t numerator, int64_t denominator)
{
    int64_t scaled = ss_shift_left64(numerator, SS_CUBIC_FIT_WEIGHT_BITS);
    int64_t half = ss_shift_right64(denominator, 1);
    return (int16_t)(((scaled >= INT64_C(0)) ? (scaled + half) : (scaled - half)) / denominator);
}
