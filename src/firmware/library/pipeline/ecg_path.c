/* Generated from SensorSim.Detection/Pipeline/EcgPath.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "beats/beat_detector.h"
#include "beats/beat_event.h"
#include "pipeline/channel_state.h"
#include "pipeline/ecg_path.h"
#include "pipeline/found_list.h"
#include "pipeline/library_input.h"
#include "pipeline/library_setup.h"
#include "pipeline/tuning.h"

static void ss_ecg_path_take_usable(ss_ecg_path_t *self, ss_view_int32_t codes, ss_view_uint16_t status, int64_t index,
    ss_found_list_t *found);
static void ss_ecg_path_add(const ss_ecg_path_t *self, int64_t tick, ss_found_list_t *found);

bool ss_ecg_path_start(ss_ecg_path_t *self, const ss_channel_setup_t *channel, const ss_tuning_t *tuning)
{
    self->state = ss_channel_state_make(channel->ticks_per_sample);
    return !ss_channel_setup_is_there(channel) || ss_beat_detector_start_3(&self->beats, channel->rate_hz, channel->codes_per_unit256,
        tuning);
}

void ss_ecg_path_take(ss_ecg_path_t *self, ss_channel_piece_t piece, ss_found_list_t *found)
{
    for (int32_t done = 0; done < piece.codes.length; ) {
        int32_t count = ss_channel_state_count_alike(&self->state, ss_view_uint16_from(piece.status, done));
        if (self->state.is_usable) {
            ss_ecg_path_take_usable(self, ss_view_int32_slice(piece.codes, done, count), ss_view_uint16_slice(piece.status, done, count),
                piece.first_index + (int64_t)done, found);
        }

        done += count;
    }
}

void ss_ecg_path_flush(ss_ecg_path_t *self, int64_t tick, ss_found_list_t *found)
{
    while ((self->state.expected >= INT64_C(0)) && ss_beat_detector_flush(&self->beats)) {
        ss_ecg_path_add(self, tick, found);
    }
}

static void ss_ecg_path_take_usable(ss_ecg_path_t *self, ss_view_int32_t codes, ss_view_uint16_t status, int64_t index,
    ss_found_list_t *found)
{
    if (index != self->state.expected) {
        /* A short gap is bridged; before a long one the detector decides what it holds, and tells it with the first sample after. */
        ss_beat_detector_restart(&self->beats, index);
    }

    self->state.expected = index + (int64_t)codes.length;
    while (!(codes.length == 0)) {
        int32_t most = (codes.length < INT32_MAX) ? codes.length : INT32_MAX;
        bool is_beat = false;
        int32_t taken = ss_beat_detector_take_3(&self->beats, ss_view_int32_slice(codes, 0, most), ss_view_uint16_slice(status, 0, most),
            &is_beat);
        codes = ss_view_int32_from(codes, taken);
        status = ss_view_uint16_from(status, taken);

        /* None taken: it was decided while a gap was bridged, and shows with the sample that comes next. */
        int64_t shown = (taken == 0) ? index : (index + (int64_t)taken - INT64_C(1));
        index += (int64_t)taken;
        if (is_beat) {
            ss_ecg_path_add(self, shown * (int64_t)self->state.step, found);
        }
    }
}

static void ss_ecg_path_add(const ss_ecg_path_t *self, int64_t tick, ss_found_list_t *found)
{
    ss_beat_event_t event_value = ss_beat_detector_event(&self->beats);
    ss_found_list_add_beat(found, &event_value, ss_beat_detector_signal_level(&self->beats), ss_beat_detector_noise_level(&self->beats),
        tick);
}
