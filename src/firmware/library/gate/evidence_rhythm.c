/* Generated from SensorSim.Detection/Gate/Evidence.Rhythm.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "gate/evidence.h"
#include "gate/half8.h"

static int32_t ss_evidence_count_excused(const ss_evidence_t *self);
static int32_t ss_evidence_faults_of_pattern(const ss_evidence_t *self, int32_t lag);
static bool ss_evidence_is_close(int32_t value, int32_t of);
static bool ss_evidence_is_short(const ss_evidence_t *self, int32_t interval);
static bool ss_evidence_is_long(const ss_evidence_t *self, int32_t interval);
static int32_t ss_evidence_height_back(const ss_evidence_t *self, int32_t back);

void ss_evidence_weigh(ss_evidence_t *self, bool had_interval)
{
    self->interval = (int16_t)ss_evidence_median_of(&self->intervals, self->interval_count);
    self->typical = (int16_t)ss_evidence_typical_height(self);
    int32_t interval_faults = 0;
    for (int32_t i = 1; i <= self->interval_count; i++) {
        interval_faults += ss_evidence_is_near(ss_evidence_interval_back(self, i), ss_evidence_interval(self)) ? 0 : 1;
    }

    int32_t height_faults = 0;
    for (int32_t i = 1; i <= self->height_count; i++) {
        height_faults += ss_evidence_is_alike(ss_evidence_height_back(self, i), self->typical) ? 0 : 1;
    }

    self->height_faults = (uint8_t)height_faults;
    self->interval_faults = (uint8_t)interval_faults;
    int32_t faults = interval_faults + height_faults;
    for (int32_t lag = 2; lag <= 3; lag++) {
        int32_t repeated = ss_evidence_faults_of_pattern(self, lag);
        faults = (repeated < faults) ? repeated : faults;
    }

    bool is_pattern = faults < (interval_faults + height_faults);
    int32_t unexplained = interval_faults + height_faults - ss_evidence_count_excused(self);
    unexplained = (unexplained < 0) ? 0 : unexplained;
    self->unexplained = (uint8_t)((unexplained < faults) ? unexplained : faults);
    self->faults = (uint8_t)faults;
    int32_t now = ss_evidence_interval_back(self, 1);
    bool is_known = had_interval && (self->interval_count > 2);
    bool is_odd = is_known && !ss_evidence_is_near(now, ss_evidence_interval(self));
    bool is_early = is_odd && ss_evidence_is_short(self, now);
    self->is_doubtful = !is_pattern && (is_early || (is_odd && !ss_evidence_is_alike(ss_evidence_height_back(self, 1), self->typical)));
    self->is_cut = is_known && ss_evidence_is_cut_at(self, 1);
    self->is_broken = is_known && ss_evidence_is_broken_at(self, 1);
    bool is_longer = is_odd && ((2 * now) > (3 * ss_evidence_interval(self)));

    /* While the heart gets faster the median lags: the interval before says more, when it is a regular one. */
    int32_t before = (self->interval_count > 1) ? ss_evidence_interval_back(self, 2) : 0;
    int32_t regular = (ss_evidence_is_near(before, ss_evidence_interval(self)) && (before < ss_evidence_interval(self))) ? before
        : ss_evidence_interval(self);
    self->excess = (uint8_t)(!is_longer ? 0 : ((((4 * now) > (7 * regular)) && (interval_faults <= 2)) ? 2 : 1));
}

static int32_t ss_evidence_count_excused(const ss_evidence_t *self)
{
    int32_t excused = 0;
    for (int32_t i = 1; i < self->interval_count; i++) {
        int32_t pause = ss_evidence_interval_back(self, i);
        int32_t early = ss_evidence_interval_back(self, i + 1);
        if (ss_evidence_is_short(self, early) && ((16 * pause) > (19 * ss_evidence_interval(self)))
            && ss_evidence_is_near(early + pause, 2 * ss_evidence_interval(self))) {
            excused += ss_evidence_is_alike(ss_evidence_height_back(self, i + 1), self->typical) ? 2 : 3;
        }
    }

    return excused;
}

/* Faults against the pattern of every second or third beat, as ectopic beats come; two are charged for the looser look. */
static int32_t ss_evidence_faults_of_pattern(const ss_evidence_t *self, int32_t lag)
{
    int32_t faults = 2;
    if ((self->interval_count < SS_GATE_HALF8_LENGTH) || (self->height_count < SS_GATE_HALF8_LENGTH)) {
        return 255;
    }

    for (int32_t i = 1; (i + lag) <= SS_GATE_HALF8_LENGTH; i++) {
        faults += ss_evidence_is_near(ss_evidence_interval_back(self, i), ss_evidence_interval_back(self, i + lag)) ? 0 : 1;
        faults += ss_evidence_is_alike(ss_evidence_height_back(self, i), ss_evidence_height_back(self, i + lag)) ? 0 : 1;
    }

    return faults;
}

bool ss_evidence_is_cut_at(const ss_evidence_t *self, int32_t back)
{
    int32_t one = ss_evidence_interval_back(self, back);
    int32_t two = ss_evidence_interval_back(self, back + 1);
    return (ss_evidence_is_short(self, one) || ss_evidence_is_short(self, two))
        && ss_evidence_is_near(one + two, ss_evidence_interval(self));
}

bool ss_evidence_is_broken_at(const ss_evidence_t *self, int32_t back)
{
    if (self->height_faults == 0) {
        /* Sums that fit are common by chance in fibrillation, whose heights are alike. */
        return (self->interval_faults <= SS_EVIDENCE_ODD_WHEN_REGULAR) && ss_evidence_is_cut_at(self, back);
    }

    int32_t one = ss_evidence_interval_back(self, back);
    int32_t two = ss_evidence_interval_back(self, back + 1);

    /* Two early ones that are alike, but not like the rest, are a couplet. */
    bool is_couplet = !ss_evidence_is_alike(ss_evidence_height_back(self, back), self->typical)
        && ss_evidence_is_alike(ss_evidence_height_back(self, back), ss_evidence_height_back(self, back + 1));
    if (ss_evidence_is_cut_at(self, back)) {
        return !is_couplet;
    }

    /* An early one of another height is ectopic when a pause follows, or another of its kind; else it is a stranger. */
    bool is_stranger = ss_evidence_is_short(self, two) && !ss_evidence_is_alike(ss_evidence_height_back(self, back + 1), self->typical)
        && ((16 * one) <= (19 * ss_evidence_interval(self)))
        && !(ss_evidence_is_short(self, one) && !ss_evidence_is_alike(ss_evidence_height_back(self, back), self->typical));
    bool is_two_for_three = ss_evidence_is_long(self, one) && ss_evidence_is_long(self, two)
        && ss_evidence_is_close(one + two, 3 * ss_evidence_interval(self));
    int32_t three = ((back + 2) > self->interval_count) ? 32767 : ss_evidence_interval_back(self, back + 2);
    bool is_three_for_two = ss_evidence_is_short(self, one) && ss_evidence_is_short(self, two) && (three < ss_evidence_interval(self))
        && ss_evidence_is_close(one + two + three, 2 * ss_evidence_interval(self));
    return is_stranger || is_two_for_three || is_three_for_two;
}

/* Whether a value lies within 1/16 of another. */
static bool ss_evidence_is_close(int32_t value, int32_t of)
{
    return ((16 * (value - of)) <= of) && ((16 * (of - value)) <= of);
}

static bool ss_evidence_is_short(const ss_evidence_t *self, int32_t interval)
{
    return (16 * interval) < (13 * ss_evidence_interval(self));
}

static bool ss_evidence_is_long(const ss_evidence_t *self, int32_t interval)
{
    return ((16 * interval) > (19 * ss_evidence_interval(self))) && ((16 * interval) < (28 * ss_evidence_interval(self)));
}

int32_t ss_evidence_interval_back(const ss_evidence_t *self, int32_t back)
{
    return self->intervals.at[(self->interval_at - back) & SS_EVIDENCE_MASK];
}

static int32_t ss_evidence_height_back(const ss_evidence_t *self, int32_t back)
{
    return self->heights.at[(self->height_at - back) & SS_EVIDENCE_MASK];
}
