/* Generated from SensorSim.Detection/Pulses/PulseLevels.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "fixed_point/threshold_scale.h"
#include "fixed_point/words.h"
#include "pulses/pulse_levels.h"
#include "pulses/ranks.h"

static bool ss_pulse_levels_is_alike(int32_t one, int32_t other);
static bool ss_pulse_levels_is_from_before(const ss_pulse_levels_t *self, int32_t steepest);
static int32_t ss_pulse_levels_scaled(int32_t value, int32_t ratio256);
static void ss_pulse_levels_set(ss_pulse_levels_t *self, int32_t signal);

void ss_pulse_levels_set_percent(ss_pulse_levels_t *self, int32_t percent)
{
    self->more1024 = ss_threshold_scale_more1024(percent);
}

void ss_pulse_levels_learn(ss_pulse_levels_t *self, int32_t steepest)
{
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        self->signals.at[i] = steepest;
    }

    self->since = 0;
    self->refused_count = 0;
    self->ripple_now = 0;
    self->ripple = 0;
    self->last = 0;
    ss_pulse_levels_set(self, steepest);
}

void ss_pulse_levels_add(ss_pulse_levels_t *self, int32_t steepest)
{
    self->signals.at[self->at & (SS_WORD8_LENGTH - 1)] = steepest;
    self->at++;
    self->is_between = true;

    if (ss_pulse_levels_is_strong(self, steepest)) {
        /* The wave that followed the last strong pulse: its mean, a quarter of each new one. */
        self->ripple = (self->since <= 1) ? self->ripple_now : (self->ripple + ss_shift_round(self->ripple_now - self->ripple, 2));
        self->ripple_now = 0;
    }

    self->since = (self->since < SS_PULSE_LEVELS_STEADY) ? (self->since + 1) : SS_PULSE_LEVELS_STEADY;
    self->last = steepest;
    ss_pulse_levels_set(self, ss_ranks_of_eight(&self->signals, 5));
    if (self->since == SS_PULSE_LEVELS_STEADY) {
        self->proven = self->signal;
        self->proven_ripple = self->ripple;
    }
}

bool ss_pulse_levels_is_strong(const ss_pulse_levels_t *self, int32_t steepest)
{
    return steepest > ss_shift_floor(self->signal, 1);
}

void ss_pulse_levels_add_ripple(ss_pulse_levels_t *self, int32_t steepest)
{
    self->ripple_now = (steepest > self->ripple_now) ? steepest : self->ripple_now;
}

void ss_pulse_levels_set_noise(ss_pulse_levels_t *self, int32_t noise)
{
    self->noise = (noise > 134217728) ? 134217728 : noise;
    ss_pulse_levels_set(self, self->signal);
}

void ss_pulse_levels_scale(ss_pulse_levels_t *self, int32_t ratio256)
{
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        self->signals.at[i] = ss_pulse_levels_scaled(self->signals.at[i], ratio256);
    }

    self->proven = ss_pulse_levels_scaled(self->proven, ratio256);
    self->ripple = ss_pulse_levels_scaled(self->ripple, ratio256);
    self->proven_ripple = ss_pulse_levels_scaled(self->proven_ripple, ratio256);
    self->last = ss_pulse_levels_scaled(self->last, ratio256);
    ss_pulse_levels_set(self, ss_pulse_levels_scaled(self->signal, ratio256));
}

bool ss_pulse_levels_refuse(ss_pulse_levels_t *self, int32_t steepest, bool is_near)
{
    bool is_alike = is_near && ss_pulse_levels_is_alike(steepest, self->refused);
    self->refused_count = is_alike ? (self->refused_count + 1) : 1;
    self->candidate = (is_alike && (self->refused < steepest)) ? self->refused : steepest;
    int32_t needed = self->is_between ? 3 : 2;
    self->refused = steepest;
    self->is_between = is_alike && self->is_between;
    bool is_possible = (ss_shift_floor(steepest, 4) <= self->signal) || ss_pulse_levels_is_pressing(self);
    return ((self->refused_count >= needed) && is_possible) || ss_pulse_levels_is_from_before(self, steepest);
}

void ss_pulse_levels_believe(ss_pulse_levels_t *self)
{
    if (!ss_pulse_levels_is_from_before(self, self->refused)) {
        ss_pulse_levels_learn(self, self->candidate);
        return;
    }

    int32_t ripple = self->proven_ripple;
    ss_pulse_levels_learn(self, self->proven);
    self->ripple = ripple;
    self->ripple_now = ripple;
    self->since = SS_PULSE_LEVELS_STEADY;
}

bool ss_pulse_levels_is_after_refused(const ss_pulse_levels_t *self, int32_t steepest)
{
    return steepest < ss_shift_floor(self->refused, 1);
}

static bool ss_pulse_levels_is_alike(int32_t one, int32_t other)
{
    return (ss_shift_floor(one, 1) <= other) && (one >= ss_shift_floor(other, 1));
}

static bool ss_pulse_levels_is_from_before(const ss_pulse_levels_t *self, int32_t steepest)
{
    return (self->signal < ss_shift_floor(self->proven, 1)) && ss_pulse_levels_is_alike(steepest, self->proven);
}

static int32_t ss_pulse_levels_scaled(int32_t value, int32_t ratio256)
{
    uint64_t scaled = ((uint64_t)(uint32_t)value * (uint64_t)(uint32_t)ratio256) >> 8;
    return (scaled > (uint64_t)SS_PULSE_LEVELS_HIGHEST) ? SS_PULSE_LEVELS_HIGHEST : (int32_t)scaled;
}

static void ss_pulse_levels_set(ss_pulse_levels_t *self, int32_t signal)
{
    self->signal = signal;
    self->limit = ((signal == 0) || (signal > 268435456)) ? INT32_MAX : ss_shift_left32(signal, 2);
    int32_t four_noise = ss_shift_left32(self->noise, 2);
    int32_t least = ss_shift_floor(signal, 2) + ss_shift_floor(signal, 4);

    /* The wave after an unusually large pulse is large as well. */
    int32_t most = ss_shift_floor((self->last > signal) ? self->last : signal, 1);
    int32_t larger = (self->last > (signal + ss_shift_floor(signal, 2))) ? 1 : 2;
    int32_t ripple = self->ripple + ss_shift_floor(self->ripple, larger) + ss_shift_floor(signal, 3) + four_noise;
    ripple = (ripple < least) ? least : ripple;
    self->early = ss_threshold_scale_apply(((ripple > most) || (self->since < 2)) ? most : ripple, self->more1024);

    int32_t late = ss_shift_floor(signal, 4) + ss_shift_floor(signal, 5);
    late = (late < (four_noise + self->noise)) ? (four_noise + self->noise) : late;
    self->late = (signal == 0) ? INT32_MAX : ss_threshold_scale_apply(((late > least) || (self->since < 2)) ? least : late, self->more1024);
}
