/* Generated from SensorSim.Detection/Control/PowerController.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/control_request.h"
#include "control/control_role.h"
#include "control/control_setting.h"
#include "control/power_controller.h"
#include "control/power_settings.h"

static bool ss_power_controller_close(ss_power_controller_t *self, const ss_power_settings_t *settings, int64_t index);
static bool ss_power_controller_judge(ss_power_controller_t *self, const ss_power_settings_t *settings, bool is_still, bool is_moving);

void ss_power_controller_start(ss_power_controller_t *self, int32_t rate_hz, int32_t axes, int32_t still_codes, int32_t moving_codes)
{
    *self = (ss_power_controller_t){ 0 };
    self->rate_hz = (uint16_t)rate_hz;
    self->axes = (uint8_t)axes;
    self->still_codes = still_codes;
    self->moving_codes = (moving_codes < still_codes) ? still_codes : moving_codes;
    self->decimation = 1;
}

bool ss_power_controller_next(ss_power_controller_t *self, const ss_power_settings_t *settings, int32_t axis, int32_t code, int64_t index)
{
    int32_t bit = ss_shift_left32(1, axis);
    if ((self->axes & bit) == 0) {
        return false;
    }

    bool is_asked = (index >= (((int64_t)self->second + INT64_C(1)) * (int64_t)self->rate_hz))
        && ss_power_controller_close(self, settings, index);
    bool is_first = (self->seen & bit) == 0;
    self->lowest.at[axis] = (is_first || (code < self->lowest.at[axis])) ? code : self->lowest.at[axis];
    self->highest.at[axis] = (is_first || (code > self->highest.at[axis])) ? code : self->highest.at[axis];
    self->seen = (uint8_t)(self->seen | (uint8_t)bit);
    return is_asked;
}

bool ss_power_controller_pass_time(ss_power_controller_t *self, const ss_power_settings_t *settings, int64_t second)
{
    return (self->axes != 0) && (second > (int64_t)(self->second + SS_POWER_CONTROLLER_LOST_SECONDS))
        && ss_power_controller_close(self, settings, second * (int64_t)self->rate_hz);
}

static bool ss_power_controller_close(ss_power_controller_t *self, const ss_power_settings_t *settings, int64_t index)
{
    int32_t second = (int32_t)(index / (int64_t)self->rate_hz);
    bool is_still = (second == (self->second + 1)) && (self->seen == self->axes);
    bool is_moving = !is_still;
    for (int32_t i = 0; i < SS_POWER_CONTROLLER_AXES; i++) {
        int64_t spread = ((self->seen & ss_shift_left32(1, i)) == 0) ? INT64_C(0)
            : ((int64_t)self->highest.at[i] - (int64_t)self->lowest.at[i]);
        is_still = is_still & (spread <= (int64_t)self->still_codes);
        is_moving = is_moving | (spread > (int64_t)self->moving_codes);
    }

    self->second = second;
    self->seen = 0;
    return ss_power_controller_judge(self, settings, is_still, is_moving);
}

static bool ss_power_controller_judge(ss_power_controller_t *self, const ss_power_settings_t *settings, bool is_still, bool is_moving)
{
    bool is_resting = self->still >= settings->rest_seconds;
    self->still = (uint16_t)(is_moving ? 0 : (is_still ? ((self->still < 65535) ? (self->still + 1) : self->still)
        : (is_resting ? self->still : 0)));
    bool was_asleep = self->is_asleep;
    self->is_asleep = !is_moving && (was_asleep || (self->still >= settings->sleep_seconds));
    bool may_look = self->is_asleep && was_asleep && (settings->look_every_seconds > 0);
    self->timer = (uint16_t)(may_look ? (self->timer + 1) : 0);
    self->is_looking = self->is_looking & may_look;
    if (may_look && (self->timer >= (self->is_looking ? settings->look_seconds : settings->look_every_seconds))) {
        self->is_looking = !self->is_looking;
        self->timer = 0;
    }

    int32_t wanted = self->is_looking ? 1 : (self->is_asleep ? settings->sleep_decimation
        : ((self->still >= settings->rest_seconds) ? settings->rest_decimation : 1));
    if (wanted == self->decimation) {
        return false;
    }

    self->decimation = (uint16_t)wanted;
    self->request = ss_control_request_make(SS_CONTROL_ROLE_ALL_LIGHT, SS_CONTROL_SETTING_DECIMATION, wanted * 1000);
    return true;
}
