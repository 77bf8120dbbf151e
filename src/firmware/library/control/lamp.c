/* Generated from SensorSim.Detection/Control/Lamp.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/gain_wish.h"
#include "control/lamp.h"
#include "control/level_settings.h"
#include "control/second_mean.h"

static void ss_lamp_observe(ss_lamp_t *self);
static bool ss_lamp_is_waiting(ss_lamp_t *self);
static uint8_t ss_lamp_twice(uint8_t wait);
static void ss_lamp_believe(ss_lamp_t *self);
static ss_gain_wish_t ss_lamp_gain_wanted(ss_lamp_t *self, const ss_level_settings_t *s, int32_t ambient);
static int32_t ss_lamp_current_wanted(const ss_lamp_t *self, const ss_level_settings_t *s, int32_t ambient, bool *is_outside);
static bool ss_lamp_is_blinded(const ss_lamp_t *self);

void ss_lamp_begin(ss_lamp_t *self, const ss_level_settings_t *settings)
{
    self->microamp = settings->start_microamp;
    self->gain_milli = 1000;
    self->usual_wait = (uint8_t)settings->patience_seconds;
    self->wait = self->usual_wait;
}

void ss_lamp_ask(ss_lamp_t *self, bool is_gain, int32_t milli)
{
    self->unanswered = (uint8_t)((is_gain == self->is_gain_asked) ? self->unanswered : 0);
    self->is_asked = true;
    self->wish = SS_GAIN_WISH_NONE;
    self->is_open = true;
    self->is_gain_asked = is_gain;
    self->asked_milli = milli;
    self->patience = self->wait;
}

bool ss_lamp_judge(ss_lamp_t *self, const ss_level_settings_t *settings, int32_t ambient, int32_t *microamp)
{
    (*microamp) = self->microamp;
    ss_lamp_observe(self);
    if (self->light.is_mixed || ss_lamp_is_waiting(self)) {
        return false;
    }

    self->wish = ss_lamp_gain_wanted(self, settings, ambient);
    if (self->wish != SS_GAIN_WISH_NONE) {
        return false;
    }

    bool is_outside = false;
    (*microamp) = ss_lamp_current_wanted(self, settings, ambient, &is_outside);
    return ((*microamp) != self->microamp) || (is_outside && self->is_open && !self->is_gain_asked && (self->patience == 0));
}

/* What was asked for holds once the number of the settings changes, however late. */
static void ss_lamp_observe(ss_lamp_t *self)
{
    if (!self->light.is_mixed && (self->light.number == self->number)) {
        return;
    }

    self->number = self->light.number;
    if (self->is_open) {
        /* An answer to what was given up already: this sensor is slower than it was thought. */
        bool is_late = !self->is_asked || (self->unanswered > 0);
        self->usual_wait = (uint8_t)(is_late ? ss_lamp_twice(self->usual_wait) : self->usual_wait);
        ss_lamp_believe(self);
        self->is_asked = false;
        self->is_open = false;
        self->unanswered = 0;
        self->patience = 0;
        self->wait = self->usual_wait;
    }
}

/*
 * Without an answer the request is made again, each time after twice as long: it was lost, or refused. After the second time it is taken as
 * done: then it holds already, or the sensor is at its end. Out of the band the last one is repeated now and then, should it have been lost.
 */
static bool ss_lamp_is_waiting(ss_lamp_t *self)
{
    self->patience = (uint8_t)(self->patience - (uint8_t)((self->patience > 0) ? 1 : 0));
    if (!self->is_asked || (self->patience > 0)) {
        return self->is_asked;
    }

    self->is_asked = false;
    self->unanswered++;
    self->wait = ss_lamp_twice(self->wait);
    if (self->unanswered >= 2) {
        ss_lamp_believe(self);
        self->unanswered = 0;
        self->patience = self->wait;
    }

    return false;
}

static uint8_t ss_lamp_twice(uint8_t wait)
{
    return (uint8_t)(((wait * 2) > SS_LAMP_MOST_WAIT) ? SS_LAMP_MOST_WAIT : (wait * 2));
}

static void ss_lamp_believe(ss_lamp_t *self)
{
    self->microamp = self->is_gain_asked ? self->microamp : self->asked_milli;
    self->gain_milli = (uint16_t)(self->is_gain_asked ? (uint16_t)self->asked_milli : self->gain_milli);
}

static ss_gain_wish_t ss_lamp_gain_wanted(ss_lamp_t *self, const ss_level_settings_t *s, int32_t ambient)
{
    int64_t room = (int64_t)self->light.room;
    int64_t level = (int64_t)ss_second_mean_mean_of_closed(&self->light) * INT64_C(100);
    bool is_high = (level > (room * (int64_t)s->high_percent)) || ss_lamp_is_blinded(self);
    bool is_bright = (((int64_t)ambient * INT64_C(100)) > (room * (int64_t)s->bright_percent))
        && ((self->microamp < s->most_microamp) || is_high);
    if ((self->gain_milli > s->least_gain_milli) && (is_bright || (is_high && (self->microamp <= s->least_microamp)))) {
        self->quiet_seconds = 0;
        return SS_GAIN_WISH_DOWN;
    }

    /* Up only after a while of it: room light that comes and goes must not take the gain with it. */
    bool is_out_of_reach = (level < (room * (int64_t)s->low_percent)) && (self->microamp >= s->most_microamp)
        && (((int64_t)ambient * INT64_C(100)) <= (room * (int64_t)s->quiet_percent));
    bool may_rise = is_out_of_reach && (self->gain_milli < s->most_gain_milli);
    self->quiet_seconds = (uint8_t)(!may_rise ? 0 : ((self->quiet_seconds < 255) ? (self->quiet_seconds + 1) : self->quiet_seconds));
    return (ss_gain_wish_t)((self->quiet_seconds > s->quiet_seconds) ? SS_GAIN_WISH_UP : SS_GAIN_WISH_NONE);
}

static int32_t ss_lamp_current_wanted(const ss_lamp_t *self, const ss_level_settings_t *s, int32_t ambient, bool *is_outside)
{
    /* Levels in hundredths of the range, times the range. */
    int64_t room = (int64_t)self->light.room;
    int64_t level = (int64_t)ss_second_mean_mean_of_closed(&self->light) * INT64_C(100);
    int64_t of_room = (int64_t)ambient * INT64_C(100);
    int64_t raise = of_room - (room * (int64_t)s->shared_percent);
    raise = (raise < INT64_C(0)) ? INT64_C(0) : ((raise > (room * (int64_t)s->most_raise_percent))
        ? (room * (int64_t)s->most_raise_percent) : raise);
    int64_t wanted = (int64_t)self->microamp;
    bool is_blinded = ss_lamp_is_blinded(self);
    (*is_outside) = is_blinded || (level < ((room * (int64_t)s->low_percent) + raise))
        || (level > ((room * (int64_t)s->high_percent) + raise));
    if (is_blinded) {
        wanted /= INT64_C(2);
    }
    else if ((*is_outside)) {
        /* Only the LED's own light scales with the current. Half or twice at most. */
        int64_t own = level - of_room;
        int64_t right = (own <= INT64_C(0)) ? (int64_t)s->most_microamp
            : (((int64_t)self->microamp * ((room * (int64_t)s->target_percent) + raise - of_room)) / own);
        right = (right < (int64_t)(self->microamp / 2)) ? (int64_t)(self->microamp / 2) : right;
        wanted = (right > ((int64_t)self->microamp * INT64_C(2))) ? ((int64_t)self->microamp * INT64_C(2)) : right;
    }

    wanted = (wanted > (int64_t)s->most_microamp) ? (int64_t)s->most_microamp : wanted;
    return (wanted < (int64_t)s->least_microamp) ? s->least_microamp : (int32_t)wanted;
}

static bool ss_lamp_is_blinded(const ss_lamp_t *self)
{
    return self->light.is_clipped && ((ss_second_mean_mean_of_closed(&self->light) * 2) > self->light.room);
}
