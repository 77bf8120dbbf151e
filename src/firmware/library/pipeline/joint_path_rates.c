/* Generated from SensorSim.Detection/Pipeline/JointPath.Rates.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "common/reading.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "pipeline/answer.h"
#include "pipeline/channel_role.h"
#include "pipeline/gates.h"
#include "pipeline/joint_path.h"
#include "readings/fused_rate.h"
#include "readings/heart_rate.h"

static bool ss_joint_path_is_near(const ss_reading_t *one, const ss_reading_t *other, int32_t shift);

void ss_joint_path_give_fused_of_light(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers)
{
    if (!ss_joint_path_is_fresh(self, &self->shown_ecg, now, SS_JOINT_PATH_PACE_FOR_S)) {
        ss_joint_path_give_fused(self, now, answers);
    }
}

void ss_joint_path_give_fused(ss_joint_path_t *self, int64_t now, ss_answer_list_t *answers)
{
    if (ss_gates_has_joint(&self->gates) && ss_fused_rate_update(&self->fused, &self->shown_ecg, &self->shown_pulse, &self->shown_spectrum,
        now * INT64_C(256))) {
        /* It stands on the signal that it is from: beats of the one are not where pulses of the other are. */
        bool is_ecg = (ss_fused_rate_latest(&self->fused).ticks256 == self->shown_ecg.ticks256)
            && (ss_fused_rate_latest(&self->fused).window_ticks256 == self->shown_ecg.window_ticks256);
        ss_reading_t latest_value = ss_fused_rate_latest(&self->fused);
        ss_joint_path_give(&latest_value, (ss_channel_role_t)(is_ecg ? SS_CHANNEL_ROLE_ECG : self->light), is_ecg ? self->ecg_step
            : self->light_step, now, answers);
    }
}

bool ss_joint_path_is_outrun(const ss_joint_path_t *self, const ss_reading_t *rate, int64_t now)
{
    ss_reading_t beats = ss_heart_rate_latest(&self->ecg_rate);
    return self->is_clear && (beats.quality >= SS_JOINT_PATH_SURE_BEATS)
        && ss_joint_path_is_fresh(self, &beats, now, SS_JOINT_PATH_CONFIRMS_FOR_S)
        && ((beats.value_milli - rate->value_milli) > SS_JOINT_PATH_NEAR_MILLI_BPM)
        && ((beats.value_milli - rate->value_milli) > ss_shift_floor(rate->value_milli, SS_JOINT_PATH_NEAR_SHIFT - 1));
}

bool ss_joint_path_is_confirmed(const ss_joint_path_t *self, const ss_reading_t *rate, int64_t now)
{
    return !ss_joint_path_is_outrun(self, rate, now)
        && (ss_joint_path_is_fresh(self, &self->shown_ecg, now, SS_JOINT_PATH_REMEMBERS_FOR_S) ? ss_joint_path_is_near_ecg(self, rate, now)
        : (!(ss_joint_path_is_fresh(self, &self->spectrum, now, SS_JOINT_PATH_CONFIRMS_FOR_S)
        && (self->spectrum.quality >= SS_JOINT_PATH_TRUST_ALONE))
        || ss_joint_path_is_near(rate, &self->spectrum, SS_JOINT_PATH_NEAR_SHIFT)));
}

bool ss_joint_path_is_near_ecg(const ss_joint_path_t *self, const ss_reading_t *rate, int64_t now)
{
    return ss_joint_path_is_near(rate, &self->shown_ecg, ss_joint_path_is_fresh(self, &self->shown_ecg, now, SS_JOINT_PATH_CONFIRMS_FOR_S)
        ? SS_JOINT_PATH_NEAR_SHIFT : (ss_joint_path_is_fresh(self, &self->shown_ecg, now, SS_JOINT_PATH_KNOWS_FOR_S)
        ? (SS_JOINT_PATH_NEAR_SHIFT - 1) : (SS_JOINT_PATH_NEAR_SHIFT - 2)));
}

bool ss_joint_path_is_fresh(const ss_joint_path_t *self, const ss_reading_t *reading, int64_t now, int32_t for_s)
{
    return (reading->quality > 0) && (((now * INT64_C(256))
        - reading->ticks256) < (self->clock.ticks_per_second * INT64_C(256) * (int64_t)for_s));
}

/* Windows are not quite the same: 4 bpm, or a sixteenth and more. */
static bool ss_joint_path_is_near(const ss_reading_t *one, const ss_reading_t *other, int32_t shift)
{
    int32_t difference = ss_sat_abs32(one->value_milli - other->value_milli);
    return (difference <= SS_JOINT_PATH_NEAR_MILLI_BPM) || (difference <= ss_shift_floor(other->value_milli, shift));
}
