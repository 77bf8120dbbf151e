/* Generated from SensorSim.Detection/Readings/FusedRate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "readings/beat_clock.h"
#include "readings/fused_rate.h"

static int32_t ss_fused_rate_support(const ss_reading_t *one, int32_t trust, const ss_reading_t *other, int32_t other_trust,
    const ss_reading_t *third, int32_t third_trust);
static bool ss_fused_rate_is_near(const ss_reading_t *one, const ss_reading_t *other);
static int32_t ss_fused_rate_trust(const ss_fused_rate_t *self, const ss_reading_t *reading, int64_t now256);
static bool ss_fused_rate_give(ss_fused_rate_t *self, const ss_reading_t *best, int32_t trust, int32_t with_support, int32_t other,
    bool is_doubted);

void ss_fused_rate_start(ss_fused_rate_t *self, ss_common_clock_t clock)
{
    *self = (ss_fused_rate_t){ 0 };
    ss_beat_clock_start(&self->clock, clock);
    self->latest = ss_reading_make(SS_READING_KIND_HEART_RATE_FUSED, 0, 0, INT64_C(0), INT64_C(0));
}

bool ss_fused_rate_update(ss_fused_rate_t *self, const ss_reading_t *ecg, const ss_reading_t *pulse, const ss_reading_t *spectrum,
    int64_t now_ticks256)
{
    int32_t first = ss_fused_rate_trust(self, ecg, now_ticks256);
    int32_t second = ss_fused_rate_trust(self, pulse, now_ticks256);
    int32_t third = ss_fused_rate_trust(self, spectrum, now_ticks256);
    int32_t first_with = first + ss_fused_rate_support(ecg, first, pulse, second, spectrum, third);
    int32_t second_with = second + ss_fused_rate_support(pulse, second, ecg, first, spectrum, third);
    int32_t third_with = third + ss_fused_rate_support(spectrum, third, ecg, first, pulse, second);

    /* Light counts pulses, and beats may have none: bigeminy halves its rate. A trusted ECG is not outvoted by fewer pulses. */
    bool is_deficit = (first >= SS_FUSED_RATE_TRUSTED_ECG) && (first_with == first)
        && ((second == 0) || (pulse->value_milli < ecg->value_milli)) && ((third == 0) || (spectrum->value_milli < ecg->value_milli));
    if (is_deficit) {
        return ss_fused_rate_give(self, ecg, first, first, 0, (second + third) > 0);
    }

    /* Support first: a pair that agrees outweighs a third, however sure of itself. */
    if ((first_with >= second_with) && (first_with >= third_with)) {
        return ss_fused_rate_give(self, ecg, first, first_with, (second > third) ? second : third, false);
    }

    return (second_with >= third_with) ? ss_fused_rate_give(self, pulse, second, second_with, (first > third) ? first : third, false)
        : ss_fused_rate_give(self, spectrum, third, third_with, (first > second) ? first : second, false);
}

static int32_t ss_fused_rate_support(const ss_reading_t *one, int32_t trust, const ss_reading_t *other, int32_t other_trust,
    const ss_reading_t *third, int32_t third_trust)
{
    int32_t best = 0;
    if ((trust > 0) && (other_trust > 0) && ss_fused_rate_is_near(one, other)) {
        best = other_trust;
    }

    if ((trust > 0) && (third_trust > best) && ss_fused_rate_is_near(one, third)) {
        best = third_trust;
    }

    return (best == 0) ? 0 : ss_shift_floor(best + 1, 1);
}

static bool ss_fused_rate_is_near(const ss_reading_t *one, const ss_reading_t *other)
{
    int32_t difference = ss_sat_abs32(one->value_milli - other->value_milli);
    return (difference <= SS_FUSED_RATE_NEAR_MILLI) || (difference <= ss_shift_floor(one->value_milli, 4));
}

static int32_t ss_fused_rate_trust(const ss_fused_rate_t *self, const ss_reading_t *reading, int64_t now256)
{
    if (reading->quality == 0) {
        return 0;
    }

    /* Half seconds, so 16 of them are 8 s. */
    int32_t sixteenths = ss_beat_clock_steps(&self->clock, ss_beat_clock_span(&self->clock, reading->ticks256, now256),
        SS_FUSED_RATE_STEPS_PER_SECOND);
    return (sixteenths >= 16) ? 0 : ss_shift_round(reading->quality * (16 - sixteenths), 4);
}

static bool ss_fused_rate_give(ss_fused_rate_t *self, const ss_reading_t *best, int32_t trust, int32_t with_support, int32_t other,
    bool is_doubted)
{
    if (trust == 0) {
        return false;
    }

    bool is_confirmed = with_support > trust;
    if (!is_confirmed && (other > 0)) {
        if ((trust - other) < SS_FUSED_RATE_LEAD) {
            return false;
        }

        is_doubted = true;
    }

    with_support = is_doubted ? ss_shift_floor(trust, 1) : with_support;

    bool is_new = (best->ticks256 != self->latest.ticks256) || (best->value_milli != self->latest.value_milli);
    ss_reading_t changed = (*best);
    changed.kind = SS_READING_KIND_HEART_RATE_FUSED;
    changed.quality = (uint8_t)((with_support > 255) ? 255 : with_support);
    self->latest = changed;
    return is_new;
}
