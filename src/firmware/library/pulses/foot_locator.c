/* Generated from SensorSim.Detection/Pulses/FootLocator.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/parabola.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/cubic_fit.h"
#include "pulses/cubic_fits.h"
#include "pulses/foot_locator.h"
#include "pulses/pulse_windows.h"

static int32_t ss_foot_locator_scale(const ss_word256_t *held, int32_t origin, int32_t reference, int32_t back, int32_t forward);
static int32_t ss_foot_locator_steepest(const ss_cubic_fit_t *fit, const ss_word256_t *held, int32_t origin, int32_t reach, int32_t shift,
    int32_t *slope);
static int32_t ss_foot_locator_lowest_level(const ss_cubic_fit_t *fit, const ss_word256_t *held, int32_t steepest, int32_t reference,
    int32_t shift, int32_t reach, int32_t *coarse);

void ss_foot_locator_restart(ss_foot_locator_t *self, const ss_pulse_windows_t *windows)
{
    ss_cubic_fit_restart(&self->fits.at[0], windows->fit_arm);
    ss_cubic_fit_restart(&self->fits.at[1], windows->fit_arm1);
    ss_cubic_fit_restart(&self->fits.at[SS_CUBIC_FITS_SHORTEST], windows->fit_arm2);
}

bool ss_foot_locator_locate(ss_foot_locator_t *self, const ss_pulse_windows_t *w, const ss_word256_t *held, int32_t origin, int32_t choice,
    int32_t reach, bool is_cut)
{
    ss_cubic_fit_t fit = self->fits.at[choice];
    int32_t arm = ss_cubic_fit_arm(&fit);
    int32_t reference = held->at[origin & SS_FOOT_LOCATOR_MASK];
    int32_t shift = ss_foot_locator_scale(held, origin, reference, reach + arm + w->steep_reach, arm + w->steep_reach + 1);
    int32_t slope = 0;
    int32_t best = ss_foot_locator_steepest(&fit, held, origin, w->steep_reach, shift, &slope);
    if (slope <= 0) {
        return false;
    }

    int32_t before = ss_cubic_fit_slope(&fit, held, origin + best - 1, shift);
    int32_t after = ss_cubic_fit_slope(&fit, held, origin + best + 1, shift);
    int32_t offset = ss_parabola_vertex256(before, slope, after);

    /* The vertex lies a quarter of (before − after) × offset above the middle; |offset| is at most half a sample. */
    slope += ss_shift_round(ss_shift_round(after - before, 8) * offset, 2);
    self->steepest256 = (best * 256) + offset;
    self->scale_shift = shift;
    self->slope = slope;
    self->short_slope = ss_cubic_fit_slope(&self->fits.at[SS_CUBIC_FITS_SHORTEST], held, origin + best, shift);

    int32_t steep = ss_cubic_fit_level(&fit, held, origin + best, reference, shift) + (ss_shift_round(slope, 8) * offset);
    int32_t coarse = 0;
    int32_t low = ss_foot_locator_lowest_level(&fit, held, origin + best, reference, shift, reach, &coarse);
    self->minimum_back = coarse - best;
    if ((steep <= low) || (is_cut && (coarse >= (reach - arm)))) {
        return false;
    }

    self->minimum = reference + ss_shift_left32(ss_shift_round(low, SS_CUBIC_FIT_WEIGHT_BITS), shift);
    int32_t scale = ss_shift_needed(ss_sat_sub32(steep, low), 22);
    int32_t rise = ss_shift_round(ss_sat_sub32(steep, low), scale);
    int32_t run = ss_shift_round(slope, scale);
    if ((rise <= 0) || (run <= 0)) {
        return false;
    }

    /* A tangent that meets the minimum's level further back than the minimum may lie belongs to no upstroke. */
    int32_t back256 = ((rise * 256) + ss_shift_right32(run, 1)) / run;
    self->foot256 = self->steepest256 - back256;
    return back256 <= (reach * 256);
}

int32_t ss_foot_locator_fullest256(const ss_foot_locator_t *self, const ss_word256_t *held, int32_t origin, int32_t from, int32_t choice,
    int32_t most)
{
    int32_t after = ss_cubic_fit_slope(&self->fits.at[choice], held, origin + from, self->scale_shift);
    for (int32_t i = 1; (i <= most) && (after < 0); i++) {
        int32_t before = ss_cubic_fit_slope(&self->fits.at[choice], held, origin + from - i, self->scale_shift);
        if (before >= 0) {
            /* Zero lies between; magnitudes to 20 bits before the division. */
            int32_t span = ss_shift_round(before, 11) - ss_shift_round(after, 11);
            int32_t past = (span == 0) ? 0 : ((ss_shift_round(before, 11) * 256) / span);
            return ((from - i) * 256) + past;
        }

        after = before;
    }

    return INT32_MIN;
}

static int32_t ss_foot_locator_scale(const ss_word256_t *held, int32_t origin, int32_t reference, int32_t back, int32_t forward)
{
    int32_t largest = 0;
    for (int32_t i = -back; i <= forward; i++) {
        int32_t difference = ss_sat_abs32(held->at[(origin + i) & SS_FOOT_LOCATOR_MASK] - reference);
        largest = (difference > largest) ? difference : largest;
    }

    /* Differences between two samples may be twice as large. */
    return ss_shift_needed(largest, SS_CUBIC_FIT_INPUT_BITS - 1);
}

static int32_t ss_foot_locator_steepest(const ss_cubic_fit_t *fit, const ss_word256_t *held, int32_t origin, int32_t reach, int32_t shift,
    int32_t *slope)
{
    int32_t best = 0;
    (*slope) = INT32_MIN;
    for (int32_t i = -reach; i <= reach; i++) {
        int32_t here = ss_cubic_fit_slope(fit, held, origin + i, shift);
        if (here > (*slope)) {
            (*slope) = here;
            best = i;
        }
    }

    return best;
}

/* Coarse by the lowest sum of 2m + 1 samples, fine by the fit near it. */
static int32_t ss_foot_locator_lowest_level(const ss_cubic_fit_t *fit, const ss_word256_t *held, int32_t steepest, int32_t reference,
    int32_t shift, int32_t reach, int32_t *coarse)
{
    int32_t arm = ss_cubic_fit_arm(fit);
    int32_t sum = 0;
    for (int32_t i = -arm; i <= arm; i++) {
        sum += held->at[(steepest + i) & SS_FOOT_LOCATOR_MASK] - reference;
    }

    int32_t lowest_sum = sum;
    (*coarse) = 0;
    for (int32_t i = 1; i <= (reach - arm); i++) {
        sum += held->at[(steepest - i - arm) & SS_FOOT_LOCATOR_MASK] - held->at[(steepest - i + arm + 1) & SS_FOOT_LOCATOR_MASK];
        if (sum < lowest_sum) {
            lowest_sum = sum;
            (*coarse) = i;
        }
    }

    int32_t lowest = INT32_MAX;
    for (int32_t i = (*coarse) - arm; i <= ((*coarse) + 1); i++) {
        int32_t level = ss_cubic_fit_level(fit, held, steepest - i, reference, shift);
        lowest = (level < lowest) ? level : lowest;
    }

    return lowest;
}
