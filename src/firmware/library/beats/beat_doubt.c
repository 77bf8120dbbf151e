/* Generated from SensorSim.Detection/Beats/BeatDoubt.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_doubt.h"
#include "beats/beat_rhythm.h"

static void ss_beat_doubt_trust(ss_beat_doubt_t *self, bool is_long);

void ss_beat_doubt_forget(ss_beat_doubt_t *self)
{
    self->value = 0;
}

void ss_beat_doubt_restart(ss_beat_doubt_t *self)
{
    self->has_last = false;
    self->strange = 0;
    self->dropped = 0;
    self->low = 0;
    self->kin = 0;
}

void ss_beat_doubt_add_dropped(ss_beat_doubt_t *self)
{
    self->dropped++;
}

void ss_beat_doubt_add_low(ss_beat_doubt_t *self)
{
    self->low++;
}

void ss_beat_doubt_add_strange(ss_beat_doubt_t *self)
{
    self->strange++;
}

void ss_beat_doubt_add_kin(ss_beat_doubt_t *self)
{
    self->kin++;
}

void ss_beat_doubt_weigh(ss_beat_doubt_t *self, int64_t position256, const ss_beat_rhythm_t *rhythm, bool is_learning)
{
    if (self->has_last && !is_learning) {
        int32_t rr = (int32_t)ss_shift_right64(position256 - self->last256, 8);
        ss_beat_doubt_trust(self, ss_beat_rhythm_is_long(rhythm, rr));
        bool is_full = (rhythm->count == 8) && (rr <= (rhythm->median + ss_shift_right32(rhythm->median, 3)));
        int32_t change = ((self->strange + self->dropped + self->low) == 0) ? -1
            : (ss_beat_rhythm_is_long(rhythm, rr) ? -4 : (((self->dropped > 0) || ((self->strange > 0) && is_full)) ? SS_BEAT_DOUBT_STEP
            : ((self->low > 0) ? SS_BEAT_DOUBT_SMALL_STEP : 0)));
        self->value += change;
        self->value = (self->value > SS_BEAT_DOUBT_MOST) ? SS_BEAT_DOUBT_MOST : ((self->value < 0) ? 0 : self->value);
    }

    ss_beat_doubt_restart(self);
    self->has_last = true;
    self->last256 = position256;
}

static void ss_beat_doubt_trust(ss_beat_doubt_t *self, bool is_long)
{
    if (self->kin > 0) {
        self->trust += is_long ? 1 : -2;
        self->trust = (self->trust > SS_BEAT_DOUBT_MOST_TRUST) ? SS_BEAT_DOUBT_MOST_TRUST : ((self->trust < -4) ? -4 : self->trust);
    }
}
