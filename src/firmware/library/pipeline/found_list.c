/* Generated from SensorSim.Detection/Pipeline/FoundList.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_event.h"
#include "pipeline/found_list.h"
#include "pulses/pulse_event.h"

static bool ss_found_list_is_before(const ss_found_t *one, const ss_found_t *other);

const ss_beat_event_t *ss_found_list_beat(const ss_found_list_t *self, const ss_found_t *found)
{
    return &self->beats.at[found->slot];
}

const ss_pulse_event_t *ss_found_list_pulse(const ss_found_list_t *self, const ss_found_t *found)
{
    return &self->pulses.at[found->slot];
}

void ss_found_list_add_beat(ss_found_list_t *self, const ss_beat_event_t *beat, int32_t signal_level, int32_t noise_level, int64_t tick)
{
    if (self->beat_count < SS_FOUND_LIST_EVENT_CAPACITY) {
        self->beats.at[self->beat_count] = (*beat);
        uint8_t beat_count_value = self->beat_count;
        self->beat_count++;
        ss_found_t value = (ss_found_t){ .tick = tick, .kind = SS_FOUND_KIND_BEAT, .signal_level = signal_level,
            .noise_level = noise_level, .slot = beat_count_value };
        ss_found_list_add(self, &value);
    }
}

void ss_found_list_add_pulse(ss_found_list_t *self, const ss_pulse_event_t *pulse, int32_t signal_level, int32_t noise_level,
    bool is_oxygen, int64_t tick)
{
    if (self->pulse_count < SS_FOUND_LIST_EVENT_CAPACITY) {
        self->pulses.at[self->pulse_count] = (*pulse);
        uint8_t pulse_count_value = self->pulse_count;
        self->pulse_count++;
        ss_found_t value = (ss_found_t){ .tick = tick, .kind = SS_FOUND_KIND_PULSE, .signal_level = signal_level,
            .noise_level = noise_level, .is_oxygen = is_oxygen, .slot = pulse_count_value };
        ss_found_list_add(self, &value);
    }
}

void ss_found_list_add(ss_found_list_t *self, const ss_found_t *found)
{
    int32_t at = self->count;
    while ((at > 0) && ss_found_list_is_before(found, &self->items.at[at - 1])) {
        at--;
    }

    /* The second of two steps in a row changes nothing that the first has not: a sensor that steps with every sample pushes nothing out. */
    bool is_repeated = (at > 0) && (found->kind == SS_FOUND_KIND_STEP) && (self->items.at[at - 1].kind == SS_FOUND_KIND_STEP);
    if (is_repeated || (self->count == SS_FOUND_LIST_CAPACITY)) {
        return;
    }

    for (int32_t i = self->count; i > at; i--) {
        self->items.at[i] = self->items.at[i - 1];
    }

    self->items.at[at] = (*found);
    self->count++;
}

static bool ss_found_list_is_before(const ss_found_t *one, const ss_found_t *other)
{
    return (one->tick < other->tick) || ((one->tick == other->tick) && (one->kind < other->kind));
}
