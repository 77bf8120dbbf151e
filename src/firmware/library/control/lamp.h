/* Generated from SensorSim.Detection/Control/Lamp.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_CONTROL_LAMP_H
#define SS_CONTROL_LAMP_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "control/second_mean.h"

#define SS_LAMP_MOST_WAIT 80

/*
 * What one LED and its receiver are set to, and what has been asked for.
 * Input: mean levels of 16 bits, once a second. Product: current × share of the range, 20 + 23 bits. Accumulator: 64 bits, once a second.
 * Worst case: 10^6 µA × 65,535 × 75, 43 bits. Output: µA, floor; two divisions a second.
 */
struct ss_lamp {
    ss_second_mean_t light; /* Mean level, second by second. */
    int32_t asked_milli;
    uint8_t patience;
    uint8_t wait;
    uint8_t usual_wait;
    uint8_t quiet_seconds;
    uint8_t number;
    uint8_t unanswered;
    bool is_gain_asked;
    bool is_open;
    int32_t microamp; /* LED current that is believed to hold [µA]. */
    uint16_t gain_milli; /* Gain that is believed to hold [1/1000]. */
    ss_gain_wish_t wish; /* What the last second wants of the gain. */
    bool is_asked; /* Whether a request is under way. */
};

/* Whether the start was asked for. */
static inline bool ss_lamp_is_started(const ss_lamp_t *self);

/*
 * The start is asked for.
 * settings: Settings.
 */
void ss_lamp_begin(ss_lamp_t *self, const ss_level_settings_t *settings);

/*
 * A setting is asked for.
 * is_gain: Whether it is the gain, else the current.
 * milli: The value.
 */
void ss_lamp_ask(ss_lamp_t *self, bool is_gain, int32_t milli);

/*
 * Judges the second that has ended; it must have samples.
 * settings: Settings.
 * ambient: Room light [codes of 16 bits]; 0 when not known.
 * microamp: The current that is wanted; wish says what of the gain.
 * Returns: Whether a current is to be asked for.
 */
bool ss_lamp_judge(ss_lamp_t *self, const ss_level_settings_t *settings, int32_t ambient, int32_t *microamp);

static inline bool ss_lamp_is_started(const ss_lamp_t *self)
{
    return self->gain_milli != 0;
}

#endif
