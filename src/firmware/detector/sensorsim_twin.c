/* SPDX-License-Identifier: MIT */
/*
 * The twin as a shared library that the sensorsim command loads like any detector in C: sensorsim run SCENARIO --detector libsensorsim_twin.so.
 * For the host only: it takes memory and, where sensorsim_detector.h has doubles, computes with them as the adapter of the C# library does, so that the
 * marks are the same to the bit.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "library_adapter.h"
#include "sensorsim_detector.h"

typedef struct twin {
    ss_adapter_t adapter;
    ss_answer_t room[SS_ANSWER_LIST_MOST];
    int32_t channel_of[SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH]; /* number of each role's channel; -1: none */
    double milli_per_code;                                       /* of the ECG [1/1000 mV] */
    int64_t ticks_per_second;
    sensorsim_answers *answers;
    ss_sample_run_t *runs;
    int32_t run_capacity;
    bool is_started;
} twin_t;

/* One constant and the field of ss_tuning_t that it is, by its place. */
static const sensorsim_constant constants[] = {
    { sizeof(sensorsim_constant), 1, "beat_refractory_ms", "ms", "No two beats lie closer than this.", 100, 400, 200 },
    { sizeof(sensorsim_constant), 1, "beat_t_wave_ms", "ms", "Up to this long after a beat a candidate may be its T wave.", 200, 600, 360 },
    { sizeof(sensorsim_constant), 1, "beat_threshold_percent", "%", "Threshold of beats, of the usual one.", 25, 400, 100 },
    { sizeof(sensorsim_constant), 1, "pulse_refractory_ms", "ms", "No two pulses lie closer than this.", 150, 500, 270 },
    { sizeof(sensorsim_constant), 1, "pulse_threshold_percent", "%", "Thresholds of pulses, of the usual ones.", 25, 400, 100 },
    { sizeof(sensorsim_constant), 1, "gate_shut_ms", "ms", "A gate that shut stays shut for this long at least.", 500, 15000, 3000 },
    { sizeof(sensorsim_constant), 1, "ecg_gate_faults", "", "Features of the last beats that may stand out when the gate of the ECG opens.", 0, 12, 3 },
    { sizeof(sensorsim_constant), 1, "light_gate_faults", "", "Features of the last pulses that may stand out when the gate of the light opens.", 0, 12, 3 },
    { sizeof(sensorsim_constant), 1, "gate_doubt", "", "After a signal that was not convincing for this many beats or pulses, as many must be before a gate opens.", 0, 8, 5 },
};

#define CONSTANTS ((int32_t)(sizeof constants / sizeof constants[0]))

uint32_t sensorsim_detector_abi(void)
{
    return SENSORSIM_DETECTOR_ABI;
}

const char *sensorsim_detector_name(void)
{
    return SS_LIBRARY_NAME;
}

int32_t sensorsim_detector_constant_count(void)
{
    return CONSTANTS;
}

int32_t sensorsim_detector_constant(int32_t index, sensorsim_constant *constant)
{
    if (index < 0 || index >= CONSTANTS) {
        return 1;
    }

    *constant = constants[index];
    return 0;
}

/* Roles of the library and names of channels have the same numbers. */
static int32_t role_of(const sensorsim_channel *channel)
{
    return channel->name >= SENSORSIM_ECG && channel->name <= SENSORSIM_ACCEL_Z ? channel->name : -1;
}

static const char *name_of(int32_t role)
{
    static const char *const names[] = { "ecg", "red", "infrared", "green", "dark", "accel_x", "accel_y", "accel_z" };
    return names[role];
}

/* Nanoseconds in 1/256 tick, rounded to nearest, halves to even. */
static int64_t delay256(int64_t nanoseconds, int64_t ticks_per_second)
{
    /* Whole seconds apart, so that every product stays within 64 bits (10^9 × 256 × ticks of up to 3 × 10^7). */
    const int64_t second = 1000000000;
    int64_t whole = nanoseconds / second;
    int64_t product = nanoseconds % second * 256 * ticks_per_second;
    int64_t quotient = product / second;
    int64_t rest = product % second;
    int64_t size = rest < 0 ? -rest : rest;
    if (2 * size > second || (2 * size == second && quotient % 2 != 0)) {
        quotient += rest < 0 ? -1 : 1;
    }

    return whole * 256 * ticks_per_second + quotient;
}

static int32_t codes_per_unit256(double unit_per_code)
{
    double codes = rint(256 / unit_per_code);
    return codes < 1 ? 1 : codes > (double)INT32_MAX ? INT32_MAX : (int32_t)codes;
}

static int32_t kind_of_reading(ss_reading_kind_t reading)
{
    static const int32_t kinds[] = {
        SENSORSIM_HEART_RATE_BPM, SENSORSIM_HEART_RATE_BPM, SENSORSIM_HEART_RATE_FUSED_BPM, SENSORSIM_RR_MEAN_MS, SENSORSIM_SDNN_MS, SENSORSIM_RMSSD_MS,
        SENSORSIM_ARRIVAL_TIME_MS, SENSORSIM_ARRIVAL_SPOT_MS, SENSORSIM_ARRIVAL_SPREAD_MS, SENSORSIM_SPO2_PERCENT, SENSORSIM_PERFUSION_INDEX_PERCENT,
        SENSORSIM_RESPIRATION_RATE_BPM, SENSORSIM_CADENCE_PER_MIN, SENSORSIM_SYSTOLIC_MMHG, SENSORSIM_DIASTOLIC_MMHG, SENSORSIM_PRESSURE_TREND_MMHG,
    };
    return kinds[reading];
}

static int32_t kind_of(const ss_answer_t *answer)
{
    switch (answer->kind) {
        case SS_ANSWER_KIND_R_PEAK: return SENSORSIM_R_PEAK;
        case SS_ANSWER_KIND_FOOT_TANGENT: return SENSORSIM_PULSE_FOOT_TANGENT;
        case SS_ANSWER_KIND_FOOT_SECOND_DERIVATIVE: return SENSORSIM_PULSE_FOOT_SECOND_DERIVATIVE;
        case SS_ANSWER_KIND_STEEPEST_POINT: return SENSORSIM_STEEPEST_POINT;
        case SS_ANSWER_KIND_SYSTOLIC_PEAK: return SENSORSIM_SYSTOLIC_PEAK;
        case SS_ANSWER_KIND_GATE_OPEN: return SENSORSIM_GATE_OPEN;
        case SS_ANSWER_KIND_GATE_SHUT: return SENSORSIM_GATE_SHUT;
        case SS_ANSWER_KIND_JOINT_GATE_OPEN: return SENSORSIM_JOINT_GATE_OPEN;
        case SS_ANSWER_KIND_JOINT_GATE_SHUT: return SENSORSIM_JOINT_GATE_SHUT;
        case SS_ANSWER_KIND_IRREGULAR_RHYTHM: return SENSORSIM_IRREGULAR_RHYTHM;
        case SS_ANSWER_KIND_REGULAR_RHYTHM: return SENSORSIM_REGULAR_RHYTHM;
        default: return kind_of_reading(answer->reading);
    }
}

static int32_t value_of(const twin_t *self, const ss_answer_t *answer)
{
    if (answer->kind == SS_ANSWER_KIND_R_PEAK) {
        double milli = rint(answer->value * self->milli_per_code);
        return milli < (double)INT32_MIN ? INT32_MIN : milli > (double)INT32_MAX ? INT32_MAX : (int32_t)milli;
    }

    bool is_reason = answer->kind == SS_ANSWER_KIND_GATE_SHUT || answer->kind == SS_ANSWER_KIND_JOINT_GATE_SHUT;
    return is_reason ? answer->value * 1000 : answer->value;
}

static void take(void *context, const ss_answer_t *answer)
{
    twin_t *self = context;
    sensorsim_answers *answers = self->answers;
    if (answers->mark_count == answers->mark_capacity) {
        return;
    }

    bool is_paired = answer->paired_role != SS_CHANNEL_ROLE_NONE;
    sensorsim_mark *mark = &answers->marks[answers->mark_count++];
    memset(mark, 0, sizeof *mark);
    mark->channel = self->channel_of[answer->role];
    mark->kind = kind_of(answer);
    mark->sample = answer->place.sample;
    mark->fraction256 = answer->place.fraction256;
    mark->quality = answer->quality;
    mark->emitted_tick = answer->emitted_tick;
    mark->has_value = answer->kind == SS_ANSWER_KIND_R_PEAK || answer->kind == SS_ANSWER_KIND_READING || answer->kind == SS_ANSWER_KIND_GATE_SHUT
        || answer->kind == SS_ANSWER_KIND_JOINT_GATE_SHUT;
    mark->value_milli = value_of(self, answer);
    mark->window_samples = answer->window_samples;
    mark->paired_channel = is_paired ? self->channel_of[answer->paired_role] : -1;
    mark->paired_sample = is_paired ? answer->paired.sample : 0;
    mark->paired_fraction256 = is_paired ? answer->paired.fraction256 : 0;
}

static int32_t refuse(twin_t *self, char *message, int32_t capacity, ss_channel_role_t role)
{
    const ss_channel_setup_t *channel = &self->adapter.setup.channels.at[role];
    if (!ss_channel_setup_is_there(channel)) {
        snprintf(message, (size_t)capacity, "The stream has neither ecg nor red, infrared or green; the library needs one of them.");
    } else if (role == SS_CHANNEL_ROLE_ECG) {
        snprintf(message, (size_t)capacity, "Channel ecg has %d Hz; the library works from %d to %d Hz.", (int)channel->rate_hz, SS_BEAT_WINDOWS_MINIMUM_RATE_HZ,
            SS_BEAT_WINDOWS_MAXIMUM_RATE_HZ);
    } else {
        snprintf(message, (size_t)capacity, "Channel %s has %d Hz; the library works from %d to %d Hz.", name_of(role), (int)channel->rate_hz,
            SS_PULSE_WINDOWS_MINIMUM_RATE_HZ, SS_PULSE_WINDOWS_MAXIMUM_RATE_HZ);
    }

    free(self->runs);
    free(self);
    return 1;
}

int32_t sensorsim_detector_open(const sensorsim_format *format, void **state, char *message, int32_t message_capacity)
{
    twin_t *self = calloc(1, sizeof *self);
    if (self == NULL) {
        snprintf(message, (size_t)message_capacity, "There is no memory left.");
        return 1;
    }

    ss_adapter_init(&self->adapter, self->room, SS_ANSWER_LIST_MOST, take, self);
    self->ticks_per_second = format->ticks_per_second;
    for (int32_t role = 0; role < SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH; role++) {
        self->channel_of[role] = -1;
    }

    for (int32_t c = 0; c < format->channel_count; c++) {
        const sensorsim_channel *channel = &format->channels[c];
        int32_t role = role_of(channel);
        ss_channel_setup_t setup = { 0 };
        setup.rate_hz = channel->rate_hz;
        setup.ticks_per_sample = (int32_t)channel->ticks_per_sample;
        setup.polarity = channel->polarity;
        setup.zero_code = channel->zero_code;
        setup.codes_per_unit256 = codes_per_unit256(channel->unit_per_code);
        setup.delay256 = delay256(channel->declared_delay_ns, format->ticks_per_second);
        if (!ss_adapter_channel(&self->adapter, role, &setup)) {
            snprintf(message, (size_t)message_capacity, "Channel %d is none that the library knows.", (int)c);
            free(self);
            return 1;
        }

        self->channel_of[role] = c;
        if (role == SS_CHANNEL_ROLE_ECG) {
            self->milli_per_code = channel->unit_per_code * channel->polarity * 1000;
        }
    }

    /* Tried here, so that a stream that does not suit is refused; begun again with the constants at the first block. */
    ss_channel_role_t refused = ss_adapter_start(&self->adapter, format->ticks_per_second);
    if (refused != SS_CHANNEL_ROLE_NONE) {
        return refuse(self, message, message_capacity, refused);
    }

    *state = self;
    return 0;
}

int32_t sensorsim_detector_set(void *state, const char *name, double value)
{
    twin_t *self = state;
    for (int32_t i = 0; i < CONSTANTS; i++) {
        if (strcmp(name, constants[i].name) == 0) {
            bool is_possible = value >= constants[i].minimum && value <= constants[i].maximum && value == floor(value);
            return is_possible && ss_adapter_set(&self->adapter, (uint16_t)(SS_ADAPTER_TUNING + i), 0, (int64_t)value) ? 0 : 1;
        }
    }

    return 1;
}

static bool make_room(twin_t *self, const sensorsim_block *block)
{
    int32_t runs = 0;
    for (int32_t c = 0; c < block->channel_count; c++) {
        runs += block->channels[c].run_count;
    }

    if (runs > self->run_capacity) {
        ss_sample_run_t *grown = realloc(self->runs, (size_t)runs * 2 * sizeof *grown);
        if (grown == NULL) {
            return false;
        }

        self->runs = grown;
        self->run_capacity = runs * 2;
    }

    return true;
}

static void start(twin_t *self)
{
    if (!self->is_started) {
        (void)ss_adapter_start(&self->adapter, self->ticks_per_second);
        self->is_started = true;
    }
}

int32_t sensorsim_detector_process(void *state, const sensorsim_block *block, sensorsim_answers *answers)
{
    twin_t *self = state;
    if (!make_room(self, block)) {
        return 1;
    }

    ss_piece_t piece;
    memset(&piece, 0, sizeof piece);
    piece.begin_tick = block->begin_tick;
    piece.end_tick = block->end_tick;
    ss_sample_run_t *next = self->runs;
    for (int32_t role = 0; role < SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH; role++) {
        if (self->channel_of[role] < 0) {
            continue;
        }

        const sensorsim_channel_block *channel = &block->channels[self->channel_of[role]];
        piece.channels[role].runs = next;
        piece.channels[role].count = channel->run_count;
        for (int32_t r = 0; r < channel->run_count; r++) {
            next->codes = channel->codes + channel->runs[r].offset;
            next->status = channel->status + channel->runs[r].offset;
            next->first_index = channel->runs[r].first_index;
            next->count = channel->runs[r].count;
            next++;
        }
    }

    start(self);
    self->answers = answers;
    ss_adapter_take(&self->adapter, &piece);
    return 0;
}

int32_t sensorsim_detector_flush(void *state, sensorsim_answers *answers)
{
    twin_t *self = state;
    start(self);
    self->answers = answers;
    ss_adapter_flush(&self->adapter);
    return 0;
}

void sensorsim_detector_close(void *state)
{
    twin_t *self = state;
    free(self->runs);
    free(self);
}
