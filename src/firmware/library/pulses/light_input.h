/* Generated from SensorSim.Detection/Pulses/LightInput.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_LIGHT_INPUT_H
#define SS_PULSES_LIGHT_INPUT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_LIGHT_INPUT_LINE_BITS 5

/*
 * First stage: codes to working samples, sums of minus the light; bridges short gaps and changes of settings.
 * Input: codes of up to 24 bits. Product: none. Accumulator: 32 bits: sums of up to five codes, 27 bits; the line of a bridge has 5 fraction
 * bits, 30 bits. Worst case: a bridge over the full range, 25 bits and 5 fraction bits. Output: exact sums; the line within 2 codes at its
 * end.
 */
struct ss_light_input {
    int32_t sign;
    int32_t zero_code;
    int32_t decimation;
    int32_t sum;
    int32_t last;
    int32_t line;
    int32_t line_step;
    int32_t settling;
    int32_t light_before;
    bool is_marked;
    bool is_bridge_new;
    bool is_bridge_short;
    int32_t short_bridge;
    int32_t value; /* The working sample that is complete. */
    int32_t phase; /* Samples already in the next working sample. */
    int32_t fill_left; /* Samples of a bridge still to come. */
    int32_t jump; /* How much higher the working samples are than they would have been before a change of settings; 0 for no change. */
    int32_t ratio256; /* By which ratio the light has changed with it [1/256], 16 to 4096. */
    bool is_fresh; /* Whether no working sample of the run has been taken yet. */
    bool needs_care; /* Whether the working sample needs care: the first of a run, the first after a jump, or marked. */
};

/*
 * Prepares for a stream.
 * windows: Lengths.
 * polarity: +1 when more light raises the code, −1 when it lowers it.
 * zero_code: Code of no light.
 */
void ss_light_input_start(ss_light_input_t *self, const ss_pulse_windows_t *windows, int32_t polarity, int32_t zero_code);

/* A run begins with the next sample. */
void ss_light_input_restart(ss_light_input_t *self);

/*
 * Samples are missing before the next one.
 * count: How many; those of a bridge not yet begun are added.
 */
void ss_light_input_bridge(ss_light_input_t *self, int32_t count);

/*
 * The level jumps with the next sample and needs some time to settle.
 * samples: How many samples.
 */
void ss_light_input_settle(ss_light_input_t *self, int32_t samples);

/*
 * The next sample of the bridge: on a straight line; the last one again while the level settles.
 * code: The code after the gap.
 * Returns: Whether a working sample is complete.
 */
bool ss_light_input_next_filled(ss_light_input_t *self, int32_t code);

/*
 * Takes a sample.
 * code: Its code.
 * Returns: Whether a working sample is complete.
 */
static inline bool ss_light_input_next(ss_light_input_t *self, int32_t code);

/*
 * Received light at a level, counted from the code of no light.
 * filling: Minus the light [codes].
 */
int32_t ss_light_input_light_at(const ss_light_input_t *self, int32_t filling);

bool ss_light_input_add(ss_light_input_t *self, int32_t value);

/*
 * Care was taken of the working sample.
 * Returns: Whether it is marked: a part of it is not what the sensor gave, or was given while it settled.
 */
bool ss_light_input_end_care(ss_light_input_t *self);

int32_t ss_light_input_settled(ss_light_input_t *self, int32_t value);

static inline bool ss_light_input_next(ss_light_input_t *self, int32_t code)
{
    int32_t value = (self->sign < 0) ? -code : code;
    self->last = (self->settling > 0) ? ss_light_input_settled(self, value) : value;
    return ss_light_input_add(self, self->last);
}

#endif
