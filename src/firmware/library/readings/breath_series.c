/* Generated from SensorSim.Detection/Readings/BreathSeries.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "readings/breath_series.h"
#include "readings/rings.h"

static int8_t ss_breath_series_between(const ss_breath_series_t *self, int64_t at256, int64_t ticks256, int32_t here);

void ss_breath_series_restart(ss_breath_series_t *self)
{
    self->has_before = false;
    self->held = 0;
}

int32_t ss_breath_series_add(ss_breath_series_t *self, int64_t ticks256, int64_t step256, int32_t value, int32_t unit)
{
    self->mean = (self->mean == 0) ? value : (self->mean + ss_shift_round(value - self->mean, 3));
    int32_t off = value - self->mean;
    int32_t size = ss_long_division_rounded((uint64_t)(uint32_t)ss_sat_abs32(off) * UINT64_C(256), (unit < 1) ? UINT32_C(1)
        : (uint32_t)unit);
    int8_t here = (int8_t)((off < 0) ? -((size > 127) ? 127 : size) : ((size > 127) ? 127 : size));
    if (!self->has_before || (ticks256 <= self->before256)
        || ((ticks256 - self->before256) > (step256 * (int64_t)SS_BREATH_SERIES_LONGEST_STEPS))) {
        ss_breath_series_restart(self);
        self->has_before = true;
        self->next256 = ticks256 + step256;
        self->before256 = ticks256;
        self->before_value = here;
        return 0;
    }

    int32_t made = 0;
    while (self->next256 <= ticks256) {
        self->values.at[self->at] = ss_breath_series_between(self, self->next256, ticks256, here);
        self->at = (uint8_t)((self->at + 1) & (SS_BREATH_SERIES_LENGTH - 1));
        self->held = (uint8_t)((self->held < SS_BREATH_SERIES_LENGTH) ? (self->held + 1) : SS_BREATH_SERIES_LENGTH);
        self->next256 += step256;
        made++;
    }

    self->before256 = ticks256;
    self->before_value = here;
    return made;
}

/* The straight line from the beat before. */
static int8_t ss_breath_series_between(const ss_breath_series_t *self, int64_t at256, int64_t ticks256, int32_t here)
{
    /* Both spans shortened to 24 bits: 1/256 of a beat is enough. */
    uint64_t whole = (uint64_t)(ticks256 - self->before256);
    uint64_t part = (uint64_t)(at256 - self->before256);
    int32_t down = ss_wide_bits_uint64(whole) - 24;
    down = (down < 0) ? 0 : down;
    int32_t rise = here - self->before_value;
    int32_t step = ss_long_division_rounded(ss_shift_rightu64(part, down) * (uint64_t)(uint32_t)ss_sat_abs32(rise),
        (uint32_t)ss_shift_rightu64(whole, down));
    return (int8_t)(self->before_value + ((rise < 0) ? -step : step));
}
