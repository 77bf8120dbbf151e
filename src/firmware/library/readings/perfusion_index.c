/* Generated from SensorSim.Detection/Readings/PerfusionIndex.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/long_division.h"
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/pulse_event.h"
#include "readings/beat_window.h"
#include "readings/perfusion_index.h"
#include "readings/rings.h"

void ss_perfusion_index_start(ss_perfusion_index_t *self, ss_common_clock_t clock)
{
    *self = (ss_perfusion_index_t){ 0 };
    ss_beat_window_start(&self->window, clock);
}

bool ss_perfusion_index_add(ss_perfusion_index_t *self, const ss_pulse_event_t *pulse, int64_t ticks256)
{
    int64_t middle2 = (INT64_C(2) * (int64_t)pulse->level_codes) - (int64_t)pulse->amplitude_codes;
    if ((pulse->amplitude_codes <= 0) || (middle2 <= INT64_C(0)) || (middle2 > INT64_C(2147483647))) {
        return false;
    }

    /* 100,000 × A / (L − A/2), halved to fit. */
    int32_t half = ss_long_division_rounded((uint64_t)(uint32_t)pulse->amplitude_codes * UINT64_C(100000), (uint32_t)middle2);
    self->count = (uint8_t)(ss_beat_window_add(&self->window, ticks256, pulse->starts_run) ? self->count : 0);
    self->values.at[self->at] = (uint16_t)((half > 65535) ? 65535 : half);
    self->at = (uint8_t)((self->at + 1) & (SS_PERFUSION_INDEX_MOST - 1));
    self->count = (uint8_t)((self->count < SS_PERFUSION_INDEX_MOST) ? (self->count + 1) : SS_PERFUSION_INDEX_MOST);
    if (self->count < SS_PERFUSION_INDEX_LEAST) {
        return false;
    }

    uint32_t sum = UINT32_C(0);
    ss_word8_t recent = (ss_word8_t){ 0 };
    for (int32_t i = 0; i < self->count; i++) {
        recent.at[i] = self->values.at[(self->at - 1 - i) & (SS_PERFUSION_INDEX_MOST - 1)];
        sum += (uint32_t)recent.at[i];
    }

    /* Movement makes single pulses large: mean and median part. */
    int32_t median = ss_median_of_up_to8(ss_view_int32_slice(ss_view_int32_of(recent.at, 8), 0, self->count));
    self->is_steady = (self->count == SS_PERFUSION_INDEX_MOST)
        && (ss_sat_abs32((int32_t)sum - (self->count * median)) <= ss_shift_floor(self->count * median, SS_PERFUSION_INDEX_UNSTEADY_SHIFT));

    self->milli_percent = ss_long_division_rounded((uint64_t)(UINT32_C(2) * sum), (uint32_t)self->count);
    self->quality = (uint8_t)ss_long_division_rounded((uint64_t)pulse->quality * (uint64_t)self->count, (uint32_t)SS_PERFUSION_INDEX_MOST);
    return true;
}
