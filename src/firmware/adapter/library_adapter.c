/* SPDX-License-Identifier: MIT */
#include "library_adapter.h"

#define ROLES SS_LIBRARY_SETUP_CHANNEL_SETUPS_LENGTH

/* Where the cutting of a piece stands. */
typedef struct cutter {
    const ss_piece_t *piece;
    const ss_library_setup_t *setup;
    int64_t now;
    int64_t same_until;
    int32_t run[ROLES];
} cutter_t;

void ss_adapter_init(ss_adapter_t *self, ss_answer_t *room, int32_t room_count, ss_answer_taker_t take, void *context)
{
    (void)memset(self, 0, sizeof(*self));
    self->options = ss_library_options_default();
    self->room = room;
    self->room_count = room_count;
    self->take = take;
    self->context = context;
}

bool ss_adapter_channel(ss_adapter_t *self, int32_t role, const ss_channel_setup_t *channel)
{
    if ((role < 0) || (role >= ROLES) || (channel->rate_hz < 1) || (channel->ticks_per_sample < 1)
        || ((channel->polarity != 1) && (channel->polarity != -1))) {
        return false;
    }

    self->setup.channels.at[role] = *channel;
    return true;
}

static bool fits(int64_t value, int64_t least, int64_t most)
{
    return (value >= least) && (value <= most);
}

static bool set_short(int16_t *field, int64_t value)
{
    bool is_possible = fits(value, INT16_MIN, INT16_MAX);
    *field = is_possible ? (int16_t)value : *field;
    return is_possible;
}

static bool set_byte(uint8_t *field, int64_t value)
{
    bool is_possible = fits(value, 0, UINT8_MAX);
    *field = is_possible ? (uint8_t)value : *field;
    return is_possible;
}

static bool set_word(int32_t *field, int64_t value)
{
    bool is_possible = fits(value, INT32_MIN, INT32_MAX);
    *field = is_possible ? (int32_t)value : *field;
    return is_possible;
}

static bool set_tuning(ss_tuning_t *tuning, uint16_t index, int64_t value)
{
    switch (index) {
        case 0: return set_short(&tuning->beat_refractory_ms, value);
        case 1: return set_short(&tuning->beat_t_wave_ms, value);
        case 2: return set_short(&tuning->beat_threshold_percent, value);
        case 3: return set_short(&tuning->pulse_refractory_ms, value);
        case 4: return set_short(&tuning->pulse_threshold_percent, value);
        case 5: return set_short(&tuning->gate_shut_ms, value);
        case 6: return set_byte(&tuning->ecg_faults_to_open, value);
        case 7: return set_byte(&tuning->light_faults_to_open, value);
        case 8: return set_byte(&tuning->doubt, value);
        default: return false;
    }
}

static bool set_cuff(ss_cuff_point_t *point, uint16_t index, int64_t value)
{
    switch (index) {
        case 0: return set_word(&point->systolic_milli, value);
        case 1: return set_word(&point->diastolic_milli, value);
        case 2: return set_word(&point->arrival_us, value);
        case 3: return set_word(&point->spread_us, value);
        case 4: return set_word(&point->rate_milli_bpm, value);
        case 5: point->time_s = value; return true;
        default: return false;
    }
}

static bool set_pressure(ss_pressure_calibration_t *pressure, uint16_t index, int64_t value)
{
    switch (index) {
        case 0: return set_word(&pressure->points, value);
        case 1: return set_byte(&pressure->model, value);
        case 2: return set_word(&pressure->slope_milli_mm_hg_per_ms, value);
        case 3: return set_word(&pressure->zeta_micro_per_mm_hg, value);
        case 4: return set_word(&pressure->diastolic_share_permille, value);
        case 5: return set_word(&pressure->systolic_per_bpm_milli, value);
        case 6: return set_word(&pressure->diastolic_per_bpm_milli, value);
        case 7: return set_word(&pressure->longest_age_days, value);
        case 8: return set_word(&pressure->reach_milli_mm_hg, value);
        default: return false;
    }
}

static bool set_trend(ss_trend_settings_t *trend, uint16_t index, int64_t value)
{
    switch (index) {
        case 0: return set_short(&trend->allowance256, value);
        case 1: return set_short(&trend->threshold256, value);
        case 2: return set_byte(&trend->learning_days, value);
        case 3: return set_short(&trend->first_sd16, value);
        case 4: return set_byte(&trend->first_sd_days, value);
        case 5: return set_byte(&trend->least_quality, value);
        case 6: return set_short(&trend->per_bpm_milli, value);
        case 7: return set_byte(&trend->rest_margin_bpm, value);
        default: return false;
    }
}

/* A ratio waits for its saturation; the first pair begins a table of one's own. */
static bool set_oxygen(ss_adapter_t *self, uint16_t item, uint16_t index, int64_t value)
{
    if (!fits(value, 0, INT32_MAX)) {
        return false;
    }

    if (item == SS_ADAPTER_OXYGEN_PAIRS) {
        bool is_number = (index == 0u) && (value >= 1) && (value <= SS_OXYGEN_TABLE_MOST_PAIRS);
        if (is_number) {
            (void)memset(&self->options.oxygen, 0, sizeof(self->options.oxygen));
        }

        return is_number;
    }

    if (item == SS_ADAPTER_OXYGEN_RATIO) {
        self->pending_ratio = (int32_t)value;
        return index < SS_OXYGEN_TABLE_MOST_PAIRS;
    }

    ss_oxygen_table_t table = self->options.oxygen;
    if (index == 0u) {
        (void)memset(&table, 0, sizeof(table));
    }

    bool is_possible = (ss_oxygen_table_count(&table) == (int32_t)index) && ss_oxygen_table_add(&table, self->pending_ratio, (int32_t)value);
    self->options.oxygen = is_possible ? table : self->options.oxygen;
    return is_possible;
}

/* Items that are fields of a struct: the place of one after the first, or an item that is not one of them. */
static bool is_within(uint16_t item, int32_t first, int32_t count, uint16_t *field)
{
    int32_t place = (int32_t)item - first;
    *field = (uint16_t)place;
    return (place >= 0) && (place < count);
}

static bool set_start(ss_adapter_t *self, int64_t value)
{
    bool is_time = value >= 86400;
    self->options.start_s = is_time ? value : self->options.start_s;
    return is_time;
}

bool ss_adapter_set(ss_adapter_t *self, uint16_t item, uint16_t index, int64_t value)
{
    uint16_t field = 0;
    if (is_within(item, SS_ADAPTER_OXYGEN_PAIRS, 3, &field)) {
        return set_oxygen(self, item, index, value);
    }

    if (is_within(item, SS_ADAPTER_CUFF, 6, &field)) {
        ss_pressure_calibration_t *pressure = &self->options.pressure;
        return (index < 2u) && set_cuff(index == 0u ? &pressure->first : &pressure->second, field, value);
    }

    if (index != 0u) {
        return false;
    }

    if (is_within(item, SS_ADAPTER_TUNING, 9, &field)) {
        return set_tuning(&self->options.tuning, field, value);
    }

    if (is_within(item, SS_ADAPTER_PRESSURE, 9, &field)) {
        return set_pressure(&self->options.pressure, field, value);
    }

    if (is_within(item, SS_ADAPTER_TREND, 8, &field)) {
        return set_trend(&self->options.trend, field, value);
    }

    return (item == SS_ADAPTER_START_S) && set_start(self, value);
}

ss_channel_role_t ss_adapter_start(ss_adapter_t *self, int64_t ticks_per_second)
{
    self->lost_count = 0;
    self->setup.clock.ticks_per_second = ticks_per_second;
    bool has_ecg = ss_channel_setup_is_there(&self->setup.channels.at[SS_CHANNEL_ROLE_ECG]);
    if (!has_ecg && (ss_library_setup_light(&self->setup) == SS_CHANNEL_ROLE_NONE)) {
        return SS_CHANNEL_ROLE_ECG;
    }

    return ss_library_start(&self->library, &self->setup, &self->options);
}

/* The run that a channel is in or comes to next. The slice ends at the latest where the run after it begins. */
static ss_channel_piece_t piece_of(cutter_t *cutter, int32_t role, int64_t *until_tick)
{
    ss_channel_piece_t none = { 0 };
    const ss_channel_runs_t *channel = &cutter->piece->channels[role];
    int64_t step = cutter->setup->channels.at[role].ticks_per_sample;
    int32_t *at = &cutter->run[role];
    while ((*at < channel->count) && ((channel->runs[*at].first_index + channel->runs[*at].count - 1) * step < cutter->now)) {
        (*at)++;
    }

    if (*at == channel->count) {
        return none;
    }

    if (*at + 1 < channel->count) {
        int64_t next = channel->runs[*at + 1].first_index * step;
        *until_tick = next < *until_tick ? next : *until_tick;
    }

    const ss_sample_run_t *run = &channel->runs[*at];
    return ss_channel_piece_make(ss_view_int32_of(run->codes, run->count), ss_view_uint16_of(run->status, run->count), run->first_index);
}

/* Returns the tick up to which these are the samples. */
static int64_t fill(cutter_t *cutter, ss_library_input_t *input)
{
    int64_t until_tick = cutter->piece->end_tick;
    input->ecg = piece_of(cutter, SS_CHANNEL_ROLE_ECG, &until_tick);
    input->red = piece_of(cutter, SS_CHANNEL_ROLE_RED, &until_tick);
    input->infrared = piece_of(cutter, SS_CHANNEL_ROLE_INFRARED, &until_tick);
    input->green = piece_of(cutter, SS_CHANNEL_ROLE_GREEN, &until_tick);
    input->dark = piece_of(cutter, SS_CHANNEL_ROLE_DARK, &until_tick);
    input->accel_x = piece_of(cutter, SS_CHANNEL_ROLE_ACCEL_X, &until_tick);
    input->accel_y = piece_of(cutter, SS_CHANNEL_ROLE_ACCEL_Y, &until_tick);
    input->accel_z = piece_of(cutter, SS_CHANNEL_ROLE_ACCEL_Z, &until_tick);
    return until_tick;
}

static void hand_over(ss_adapter_t *self, ss_answer_list_t *answers)
{
    for (int32_t i = 0; i < answers->count; i++) {
        self->take(self->context, ss_answer_list_at(answers, i));
    }

    ss_answer_list_clear(answers);
}

void ss_adapter_take(ss_adapter_t *self, const ss_piece_t *piece)
{
    cutter_t cutter = { 0 };
    ss_library_input_t input = { 0 };
    ss_answer_list_t answers = ss_answer_list_make(ss_room_answer_of(self->room, self->room_count));
    cutter.piece = piece;
    cutter.setup = &self->setup;
    cutter.now = piece->begin_tick;
    cutter.same_until = piece->begin_tick;
    while (cutter.now < piece->end_tick) {
        if (cutter.now >= cutter.same_until) {
            cutter.same_until = fill(&cutter, &input);
        }

        int64_t until_tick = self->library.slice_end_tick;
        until_tick = until_tick < piece->end_tick ? until_tick : piece->end_tick;
        until_tick = until_tick < cutter.same_until ? until_tick : cutter.same_until;
        cutter.now = until_tick;
        ss_library_take(&self->library, &input, until_tick, &answers);
        hand_over(self, &answers);
    }

    self->lost_count += answers.lost_count;
}

void ss_adapter_flush(ss_adapter_t *self)
{
    ss_answer_list_t answers = ss_answer_list_make(ss_room_answer_of(self->room, self->room_count));
    ss_library_flush(&self->library, &answers);
    hand_over(self, &answers);
    self->lost_count += answers.lost_count;
}
