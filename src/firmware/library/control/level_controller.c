/* Generated from SensorSim.Detection/Control/LevelController.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "control/control_request.h"
#include "control/control_role.h"
#include "control/control_setting.h"
#include "control/gain_wish.h"
#include "control/lamp.h"
#include "control/level_controller.h"
#include "control/level_settings.h"
#include "control/second_mean.h"

static void ss_level_controller_close_1(ss_level_controller_t *self, int64_t index);
static bool ss_level_controller_close_4(ss_level_controller_t *self, const ss_level_settings_t *settings, ss_lamp_t *lamp,
    ss_control_role_t role, int64_t index);
static bool ss_level_controller_grant(ss_level_controller_t *self, const ss_level_settings_t *settings, ss_gain_wish_t wish,
    int32_t gain_milli);
static int32_t ss_level_controller_ambient(const ss_level_controller_t *self, const ss_lamp_t *lamp, int64_t index);

void ss_level_controller_start(ss_level_controller_t *self)
{
    *self = (ss_level_controller_t){ 0 };
}

bool ss_level_controller_add(ss_level_controller_t *self, ss_control_role_t role, int32_t rate_hz, int32_t zero_code, int32_t maximum_code)
{
    return (role == SS_CONTROL_ROLE_DARK) ? ss_second_mean_start(&self->dark, rate_hz, zero_code, maximum_code)
        : ((role < SS_CONTROL_ROLE_DARK) && ss_second_mean_start(&self->lamps.at[role].light, rate_hz, zero_code, maximum_code));
}

bool ss_level_controller_next(ss_level_controller_t *self, const ss_level_settings_t *settings, ss_control_role_t role, int32_t code,
    uint16_t status, int64_t index)
{
    if ((role > SS_CONTROL_ROLE_DARK) || (((role == SS_CONTROL_ROLE_DARK) ? self->dark.rate_hz
        : self->lamps.at[role].light.rate_hz) == 0)) {
        return false;
    }

    if (role == SS_CONTROL_ROLE_DARK) {
        if (ss_second_mean_is_over(&self->dark, index)) {
            ss_level_controller_close_1(self, index);
        }

        ss_second_mean_take(&self->dark, code, status);
        return false;
    }

    ss_lamp_t *lamp = &self->lamps.at[role];
    bool is_asked = (ss_second_mean_is_over(&lamp->light, index) || !ss_lamp_is_started(lamp))
        && ss_level_controller_close_4(self, settings, lamp, role, index);
    ss_second_mean_take(&lamp->light, code, status);
    return is_asked;
}

static void ss_level_controller_close_1(ss_level_controller_t *self, int64_t index)
{
    self->last_dark = (self->dark.count == 0) ? self->last_dark : ss_second_mean_mean_of_closed(&self->dark);
    ss_second_mean_begin(&self->dark, index);
}

static bool ss_level_controller_close_4(ss_level_controller_t *self, const ss_level_settings_t *settings, ss_lamp_t *lamp,
    ss_control_role_t role, int64_t index)
{
    bool is_asked = false;
    if (!ss_lamp_is_started(lamp)) {
        ss_lamp_begin(lamp, settings);
        self->request = ss_control_request_make(role, SS_CONTROL_SETTING_LED_CURRENT, settings->start_microamp);
        is_asked = true;
    }
    else if (lamp->light.count > 0) {
        int32_t microamp = 0;
        if (ss_lamp_judge(lamp, settings, ss_level_controller_ambient(self, lamp, index), &microamp)) {
            ss_lamp_ask(lamp, false, microamp);
            self->request = ss_control_request_make(role, SS_CONTROL_SETTING_LED_CURRENT, microamp);
            is_asked = true;
        }
        else if (lamp->wish != SS_GAIN_WISH_NONE) {
            is_asked = ss_level_controller_grant(self, settings, lamp->wish, lamp->gain_milli);
        }
    }

    ss_second_mean_begin(&lamp->light, index);
    return is_asked;
}

/* The gain changes only while nothing else is under way; upward only when no other channel would be driven to its end by it. */
static bool ss_level_controller_grant(ss_level_controller_t *self, const ss_level_settings_t *settings, ss_gain_wish_t wish,
    int32_t gain_milli)
{
    for (int32_t i = 0; i < SS_LEVEL_CONTROLLER_LAMPS; i++) {
        ss_lamp_t *other = &self->lamps.at[i];
        bool is_low = (wish == SS_GAIN_WISH_UP) && ((other->wish == SS_GAIN_WISH_DOWN)
            || (other->microamp < (4 * settings->least_microamp)));
        if (ss_lamp_is_started(other) && (other->is_asked || is_low)) {
            return false;
        }
    }

    int32_t wanted = (wish == SS_GAIN_WISH_UP) ? (gain_milli * 2) : ss_shift_right32(gain_milli, 1);
    wanted = (wanted > settings->most_gain_milli) ? settings->most_gain_milli
        : ((wanted < settings->least_gain_milli) ? settings->least_gain_milli : wanted);
    for (int32_t i = 0; i < SS_LEVEL_CONTROLLER_LAMPS; i++) {
        if (ss_lamp_is_started(&self->lamps.at[i])) {
            ss_lamp_ask(&self->lamps.at[i], true, wanted);
        }
    }

    self->request = ss_control_request_make(SS_CONTROL_ROLE_ALL_LIGHT, SS_CONTROL_SETTING_GAIN, wanted);
    return true;
}

/* The second of the dark channel that was whole when this sample was taken; its range may differ from that of the lit channel. */
static int32_t ss_level_controller_ambient(const ss_level_controller_t *self, const ss_lamp_t *lamp, int64_t index)
{
    if (self->dark.rate_hz == 0) {
        return 0;
    }

    int32_t dark = ((self->dark.count > 0) && ss_second_mean_is_before(&self->dark, index, lamp->light.rate_hz))
        ? ss_second_mean_mean_of_closed(&self->dark) : self->last_dark;
    return (dark <= 0) ? 0 : ((self->dark.room == lamp->light.room) ? dark
        : (int32_t)(((int64_t)dark * (int64_t)lamp->light.room) / (int64_t)self->dark.room));
}
