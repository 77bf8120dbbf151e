/* Generated from SensorSim.Detection/Beats/BeatMemory.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_candidate.h"
#include "beats/beat_locator.h"
#include "beats/beat_memory.h"
#include "beats/beat_shape.h"
#include "beats/beat_template.h"
#include "beats/beat_windows.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"

static void ss_beat_memory_describe(const ss_beat_memory_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg,
    const ss_beat_locator_t *locator, ss_beat_candidate_t *c);

void ss_beat_memory_forget(ss_beat_memory_t *self)
{
    *self = (ss_beat_memory_t){ 0 };
}

bool ss_beat_memory_is_like(const ss_beat_memory_t *self, const ss_beat_candidate_t *c)
{
    int32_t limit = ss_shift_floor(self->fit_level, 4) - SS_BEAT_MEMORY_FIT_MARGIN;
    limit = (limit < SS_BEAT_MEMORY_FIT_LOWEST) ? SS_BEAT_MEMORY_FIT_LOWEST
        : ((limit > SS_BEAT_MEMORY_FIT_HIGHEST) ? SS_BEAT_MEMORY_FIT_HIGHEST : limit);
    return (c->fit >= limit) && (c->size > ss_shift_right32(self->usual.size, 1)) && (ss_shift_right32(c->size, 1) < self->usual.size);
}

bool ss_beat_memory_is_sure(const ss_beat_memory_t *self, const ss_beat_candidate_t *c)
{
    return (c->fit >= (ss_shift_floor(self->fit_level, 4) - SS_BEAT_MEMORY_SURE_MARGIN))
        && (c->size > (self->usual.size - ss_shift_right32(self->usual.size, 2)))
        && (c->size < (self->usual.size + ss_shift_right32(self->usual.size, 2) + ss_shift_right32(self->usual.size, 4)));
}

bool ss_beat_memory_is_kin(const ss_beat_memory_t *self, const ss_beat_candidate_t *c)
{
    return (self->other.count > 0) && (c->other_fit >= ((self->other.count == 1) ? SS_BEAT_MEMORY_FIT_TWIN : SS_BEAT_MEMORY_FIT_SURE))
        && (c->other_size > (self->other.size - ss_shift_right32(self->other.size, 2)))
        && (c->other_size < (self->other.size + ss_shift_right32(self->other.size, 1)));
}

int32_t ss_beat_memory_spread_of(const ss_beat_memory_t *self, const ss_beat_candidate_t *c)
{
    return ss_beat_memory_is_like(self, c) ? self->usual.spread
        : (ss_beat_memory_is_kin(self, c) ? self->other.spread : ss_beat_template_spread_of(&c->slopes));
}

void ss_beat_memory_look(const ss_beat_memory_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg, ss_beat_locator_t *locator,
    int64_t middle, int64_t last, ss_beat_candidate_t *c)
{
    ss_beat_locator_locate(locator, w, ecg, middle, last);
    ss_beat_memory_describe(self, w, ecg, locator, c);
    if ((self->usual.count < 3) || (c->fit >= SS_BEAT_MEMORY_FIT_SURE)
        || ((c->other_fit >= SS_BEAT_MEMORY_FIT_SURE) && ss_beat_memory_is_kin(self, c))) {
        return;
    }

    ss_beat_shape_t shape = (ss_beat_shape_t){ 0 };
    ss_beat_shape_survey(&shape, w, ecg, (int32_t)(middle & (int64_t)(SS_WORD256_LENGTH - 1)));
    int32_t fit = ss_beat_shape_find(&shape, w, &self->usual);
    if (fit > (c->fit + 8)) {
        ss_beat_locator_t near_ = (*locator);
        ss_beat_locator_locate_near(&near_, w, ecg, middle + (int64_t)shape.at, last);
        ss_beat_candidate_t other = (*c);
        ss_beat_memory_describe(self, w, ecg, &near_, &other);
        if (ss_beat_memory_is_like(self, &other) || (other.fit > c->fit)) {
            (*c) = other;
        }
    }
}

void ss_beat_memory_learn(ss_beat_memory_t *self, const ss_beat_candidate_t *c, int32_t doubt, bool is_kin_trusted, bool is_proven)
{
    if (self->usual.count == 0) {
        ss_beat_template_begin(&self->usual, &c->slopes, c->scale);
        return;
    }

    bool is_like = (self->usual.count < 3) ? (c->fit >= SS_BEAT_MEMORY_FIT_AT_START) : ss_beat_memory_is_like(self, c);
    if (is_like) {
        ss_beat_template_add(&self->usual, &c->slopes, c->size);
        self->fit_level += (self->fit_level == 0) ? ss_shift_left32(c->fit, 4) : (c->fit - ss_shift_floor(self->fit_level, 4));
        self->strange_run = 0;
        return;
    }

    if ((self->other.count > 0) && is_kin_trusted && (c->other_fit >= SS_BEAT_MEMORY_FIT_OTHER)) {
        ss_beat_template_add(&self->other, &c->slopes, c->other_size);
    }
    else if ((self->other.count < 2) || (doubt == 0) || is_proven) {
        ss_beat_template_begin(&self->other, &c->slopes, c->scale);
    }

    self->strange_run++;
    if ((self->other.count > self->usual.count) || ((self->strange_run >= SS_BEAT_MEMORY_STRANGE_RUN) && (self->other.count >= 4))) {
        ss_beat_template_t other_value = self->other;
        ss_beat_template_t usual_value = self->usual;
        self->usual = other_value;
        self->other = usual_value;
        self->strange_run = 0;
        self->fit_level = 0;
    }
    else if (self->strange_run >= (2 * SS_BEAT_MEMORY_STRANGE_RUN)) {
        ss_beat_memory_forget(self);
        ss_beat_template_begin(&self->usual, &c->slopes, c->scale);
    }
}

static void ss_beat_memory_describe(const ss_beat_memory_t *self, const ss_beat_windows_t *w, const ss_word256_t *ecg,
    const ss_beat_locator_t *locator, ss_beat_candidate_t *c)
{
    c->position256 = locator->position256;
    c->deviation = locator->deviation;
    c->slope = locator->slope;
    c->quality = 255;
    c->scale = ss_beat_shape_read(w, ecg, (int32_t)ss_shift_right64(c->position256 + INT64_C(128), 8) & (SS_WORD256_LENGTH - 1),
        &c->slopes);
    int32_t energy = ss_beat_template_energy(&c->slopes);
    int32_t dot = ss_beat_template_dot_1(&self->usual, &c->slopes);
    c->fit = ss_beat_template_fit(&self->usual, dot, energy);
    c->size = ss_beat_template_size_of(&self->usual, dot, c->scale);
    int32_t other_dot = ss_beat_template_dot_1(&self->other, &c->slopes);
    c->other_fit = ss_beat_template_fit(&self->other, other_dot, energy);
    c->other_size = ss_beat_template_size_of(&self->other, other_dot, c->scale);
}
