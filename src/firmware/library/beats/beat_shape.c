/* Generated from SensorSim.Detection/Beats/BeatShape.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_shape.h"
#include "beats/beat_template.h"
#include "beats/beat_windows.h"
#include "beats/beat_words.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"

static bool ss_beat_shape_is_better(int32_t dot, int32_t energy, int32_t other_dot, int32_t other_energy);
static int32_t ss_beat_shape_slope_at(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at);
static int32_t ss_beat_shape_smooth(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at);

int32_t ss_beat_shape_read(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at, ss_slopes16_t *slopes)
{
    (*slopes) = (ss_slopes16_t){ 0 };
    ss_word16_t raw = (ss_word16_t){ 0 };
    int32_t largest = 0;
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        int32_t slope = ss_beat_shape_slope_at(w, ecg, at + ((i - SS_BEAT_SHAPE_BEFORE) * w->shape_step));
        raw.at[i] = slope;
        int32_t size = ss_sat_abs32(slope);
        largest = (size > largest) ? size : largest;
    }

    int32_t scale = ss_shift_needed(largest, 12);
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        slopes->at[i] = (int16_t)ss_shift_floor(raw.at[i], scale);
    }

    return scale;
}

void ss_beat_shape_survey(ss_beat_shape_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t middle)
{
    int32_t count = SS_SLOPES16_LENGTH + (2 * w->shape_reach);
    int32_t largest = 0;
    for (int32_t i = 0; i < count; i++) {
        int32_t slope = ss_beat_shape_slope_at(w, ecg, middle + ((i - w->shape_reach - SS_BEAT_SHAPE_BEFORE) * w->shape_step));
        self->area.at[i] = slope;
        int32_t size = ss_sat_abs32(slope);
        largest = (size > largest) ? size : largest;
    }

    self->scale = ss_shift_needed(largest, 12);
    for (int32_t i = 0; i < count; i++) {
        self->area.at[i] = ss_shift_floor(self->area.at[i], self->scale);
    }
}

int32_t ss_beat_shape_find(ss_beat_shape_t *self, const ss_beat_windows_t *w, const ss_beat_template_t *template)
{
    int32_t best = 0;
    int32_t best_dot = 0;
    int32_t best_energy = 1;
    int32_t energy = 0;
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        energy += self->area.at[i] * self->area.at[i];
    }

    for (int32_t j = 0; j <= (2 * w->shape_reach); j++) {
        int32_t dot = ss_beat_template_dot_2(template, &self->area, j);
        if ((dot > 0) && ss_beat_shape_is_better(dot, energy, best_dot, best_energy)) {
            best = j;
            best_dot = dot;
            best_energy = energy;
        }

        /* The next place: one slope leaves, one comes. */
        int32_t leaves = self->area.at[j];
        int32_t comes = self->area.at[(j + SS_SLOPES16_LENGTH) & (SS_WORD32_LENGTH - 1)];
        energy += (comes * comes) - (leaves * leaves);
    }

    self->at = (best - w->shape_reach) * w->shape_step;
    return ss_beat_template_fit(template, best_dot, best_energy);
}

/* Whether dot² / energy is larger; squares of 16 bits against energies of 17. */
static bool ss_beat_shape_is_better(int32_t dot, int32_t energy, int32_t other_dot, int32_t other_energy)
{
    int64_t a = (int64_t)ss_shift_floor(dot, 12);
    int64_t b = (int64_t)ss_shift_floor(other_dot, 12);
    return (a * a * (int64_t)(ss_shift_floor(other_energy, 11) + 1)) > (b * b * (int64_t)(ss_shift_floor(energy, 11) + 1));
}

static int32_t ss_beat_shape_slope_at(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at)
{
    return ss_beat_shape_smooth(w, ecg, at + w->shape_step) - ss_beat_shape_smooth(w, ecg, at - w->shape_step);
}

static int32_t ss_beat_shape_smooth(const ss_beat_windows_t *w, const ss_word256_t *ecg, int32_t at)
{
    int32_t arm = ss_shift_right32(w->shape_step + 1, 1);
    return ecg->at[(at - arm) & SS_BEAT_SHAPE_MASK] + (2 * ecg->at[at & SS_BEAT_SHAPE_MASK]) + ecg->at[(at + arm) & SS_BEAT_SHAPE_MASK];
}
