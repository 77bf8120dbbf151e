/* Generated from SensorSim.Detection/Beats/SpikeFilter.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_words.h"
#include "beats/spike_filter.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"

static bool ss_spike_filter_cut(ss_spike_filter_t *self, int32_t centre, int32_t middle, int32_t excess);
static int32_t ss_spike_filter_smaller(int32_t a, int32_t b);

void ss_spike_filter_start(ss_spike_filter_t *self, int32_t rate_hz, int32_t codes_per_mv256)
{
    self->arm_bits = (rate_hz < 500) ? 0 : ((rate_hz < 750) ? 1 : 2);
    self->arm = (self->arm_bits == 0) ? 0 : ss_shift_left32(1, self->arm_bits);
    self->delay = (self->arm == 0) ? 4 : (4 * self->arm);

    /* What stands out by less than 0.15 mV is no matter: a heart-rate meter need not count a QRS that small (IEC 60601-2-27, from memory). */
    int32_t tenth = ss_shift_floor(codes_per_mv256, 8) / 7;
    self->floor = (tenth > 8) ? tenth : 8;
    self->mean = 0;
}

void ss_spike_filter_restart(ss_spike_filter_t *self, int32_t value)
{
    self->at = 0;
    self->since_flag = 4;
    for (int32_t i = 0; i < SS_WORD32_LENGTH; i++) {
        self->held.at[i] = value;
    }
}

bool ss_spike_filter_flagged(ss_spike_filter_t *self, int32_t at, bool is_flagged)
{
    if (is_flagged && (self->since_flag >= 3)) {
        self->since_flag = 0;
        return false;
    }

    self->since_flag++;
    if (self->since_flag < 3) {
        return false;
    }

    int32_t before = self->held.at[(at - 4) & SS_SPIKE_FILTER_MASK];
    int32_t step = self->held.at[at & SS_SPIKE_FILTER_MASK] - before;
    for (int32_t k = 1; k < 4; k++) {
        self->held.at[(at - 4 + k) & SS_SPIKE_FILTER_MASK] = before + ss_shift_floor(step * k, 2);
    }

    self->age = 3;
    return true;
}

bool ss_spike_filter_search(ss_spike_filter_t *self, int32_t at)
{
    int32_t arm = self->arm;
    int32_t centre = at - (2 * arm);
    int32_t middle = self->held.at[centre & SS_SPIKE_FILTER_MASK];
    int32_t left = middle - self->held.at[(centre - arm) & SS_SPIKE_FILTER_MASK];
    int32_t right = middle - self->held.at[(centre + arm) & SS_SPIKE_FILTER_MASK];
    if ((left ^ right) < 0) {
        self->mean -= ss_shift_floor(self->mean, SS_SPIKE_FILTER_MEAN_BITS);
        return false;
    }

    int32_t excess = ss_spike_filter_smaller(left, right);
    int32_t limit = ss_shift_floor(self->mean, SS_SPIKE_FILTER_MEAN_BITS - 4) + self->floor;
    int32_t counted = (excess < limit) ? excess : limit;
    self->mean += ((counted < (1 << 20)) ? counted : (1 << 20)) - ss_shift_floor(self->mean, SS_SPIKE_FILTER_MEAN_BITS);
    return (excess > limit) && ss_spike_filter_cut(self, centre, middle, excess);
}

static bool ss_spike_filter_cut(ss_spike_filter_t *self, int32_t centre, int32_t middle, int32_t excess)
{
    int32_t arm = self->arm;
    int32_t far_left = middle - self->held.at[(centre - (2 * arm)) & SS_SPIKE_FILTER_MASK];
    int32_t far_right = middle - self->held.at[(centre + (2 * arm)) & SS_SPIKE_FILTER_MASK];
    if ((ss_sat_abs32(far_left) + ss_sat_abs32(far_right)) > (3 * excess)) {
        return false;
    }

    int32_t before = self->held.at[(centre - arm) & SS_SPIKE_FILTER_MASK];
    int32_t step = self->held.at[(centre + arm) & SS_SPIKE_FILTER_MASK] - before;
    for (int32_t k = 1; k < (2 * arm); k++) {
        self->held.at[(centre - arm + k) & SS_SPIKE_FILTER_MASK] = before + ss_shift_floor(step * k, self->arm_bits + 1);
    }

    self->age = 2 * arm;
    return true;
}

static int32_t ss_spike_filter_smaller(int32_t a, int32_t b)
{
    int32_t x = ss_sat_abs32(a);
    int32_t y = ss_sat_abs32(b);
    return (x < y) ? x : y;
}
