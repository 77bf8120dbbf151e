/* Generated from SensorSim.Detection/Beats/BeatTemplate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_template.h"
#include "beats/beat_words.h"
#include "fixed_point/integer_root.h"
#include "fixed_point/long_division.h"
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"

static void ss_beat_template_refresh(ss_beat_template_t *self);

int32_t ss_beat_template_energy(const ss_slopes16_t *slopes)
{
    int32_t sum = 0;
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        sum += slopes->at[i] * slopes->at[i];
    }

    return sum;
}

int32_t ss_beat_template_dot_1(const ss_beat_template_t *self, const ss_slopes16_t *slopes)
{
    int32_t sum = 0;
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        sum += slopes->at[i] * self->slopes.at[i];
    }

    return sum;
}

int32_t ss_beat_template_dot_2(const ss_beat_template_t *self, const ss_word32_t *area, int32_t from)
{
    int32_t sum = 0;
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        sum += area->at[from + i] * self->slopes.at[i];
    }

    return sum;
}

int32_t ss_beat_template_fit(const ss_beat_template_t *self, int32_t dot, int32_t energy)
{
    /* Roots have up to 14 bits each. */
    uint32_t below = self->root * ss_integer_root_floor((uint32_t)energy);
    int32_t fit = (below == UINT32_C(0)) ? 0 : ss_long_division_rounded((uint64_t)ss_sat_abs32(dot) << 8, below);
    return (dot < 0) ? -fit : fit;
}

int32_t ss_beat_template_size_of(const ss_beat_template_t *self, int32_t dot, int32_t scale)
{
    return (dot <= 0) ? 0 : ss_long_division_rounded(ss_shift_leftu64((uint64_t)dot, scale), (self->root == UINT32_C(0)) ? UINT32_C(1)
        : self->root);
}

void ss_beat_template_begin(ss_beat_template_t *self, const ss_slopes16_t *slopes, int32_t scale)
{
    self->slopes = (*slopes);
    self->count = 1;
    ss_beat_template_refresh(self);
    int32_t size = ss_beat_template_size_of(self, self->energy, scale);
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        self->sizes.at[i] = size;
    }

    self->size = size;
}

void ss_beat_template_add(ss_beat_template_t *self, const ss_slopes16_t *slopes, int32_t size)
{
    int32_t shift = (self->count < 2) ? 1 : ((self->count < 4) ? 2 : 3);
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        self->slopes.at[i] = (int16_t)(self->slopes.at[i] + (int16_t)ss_shift_round(slopes->at[i] - self->slopes.at[i], shift));
    }

    self->count += (self->count < 8) ? 1 : 0;
    self->sizes.at[self->size_at & (SS_WORD8_LENGTH - 1)] = size;
    self->size_at++;
    self->size = ss_median_of_up_to8(ss_view_int32_of(self->sizes.at, 8));
    ss_beat_template_refresh(self);
}

int32_t ss_beat_template_spread_of(const ss_slopes16_t *slopes)
{
    int32_t energy = ss_beat_template_energy(slopes);
    int32_t first = 0;
    int64_t second = INT64_C(0);
    for (int32_t i = 0; i < SS_SLOPES16_LENGTH; i++) {
        int32_t square = slopes->at[i] * slopes->at[i];
        int32_t at = i - 7;
        first += ss_shift_floor(square, 4) * at;
        second += (int64_t)square * (int64_t)(at * at);
    }

    int32_t below = ss_shift_floor(energy, 4) + 1;
    int32_t centre = ss_long_division_rounded((uint64_t)ss_sat_abs32(first) << 4, (uint32_t)below);
    int32_t mean = ss_long_division_rounded((uint64_t)second, (uint32_t)below);
    return mean - ss_shift_floor(centre * centre, 4);
}

static void ss_beat_template_refresh(ss_beat_template_t *self)
{
    self->energy = ss_beat_template_energy(&self->slopes);
    self->root = ss_integer_root_floor((uint32_t)self->energy);
    self->spread = ss_beat_template_spread_of(&self->slopes);
}
