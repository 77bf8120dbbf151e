/* Generated from SensorSim.Detection/Ambient/DarkSubtraction.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_AMBIENT_DARK_SUBTRACTION_H
#define SS_AMBIENT_DARK_SUBTRACTION_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "ambient/lit_slot.h"
#include "fixed_point/shift.h"

/* Lowest rate of either slot [Hz]. */
#define SS_DARK_SUBTRACTION_MINIMUM_RATE_HZ 1
/* Highest rate of either slot [Hz]. */
#define SS_DARK_SUBTRACTION_MAXIMUM_RATE_HZ 20000
#define SS_DARK_SUBTRACTION_FRACTION 6
#define SS_DARK_SUBTRACTION_SMOOTH_SHIFT 3
#define SS_DARK_SUBTRACTION_MEAN_RAIL 1073741824
#define SS_DARK_SUBTRACTION_SLOPE_RAIL 4194303
#define SS_DARK_SUBTRACTION_WARM 32

/*
 * Takes the light of the room, as the dark slot sees it, off a lit slot.
 * The room at the instant of the light is the straight line through the last two dark samples: between them or a little beyond the latest. Its
 * noise comes into the light; while the room moves less than the noise of the dark slot the smoothed dark is taken instead. Input: codes of up
 * to 24 bits, both slots with the same weight of a code. Product: difference of two dark codes × place in 1/256 of the interval, 25 + 9 bits,
 * difference clipped to 22 bits. Accumulator: 32 bits; smoothed values Q25.6, means of magnitudes Q25.6 clipped at 2^30. Worst case: step of
 * 2^24 codes; a difference beyond 2^22 counts as a step and is not extrapolated. Output: light without room, from zero, 25 bits, rounded to
 * nearest; no delay.
 */
struct ss_dark_subtraction {
    ss_lit_slot_t own;
    int32_t dark_zero;
    int32_t level_shift;
    int32_t latest;
    int32_t slope;
    int32_t smooth;
    int32_t level;
    int32_t raw_error;
    int32_t smooth_error;
    int32_t swing;
    int32_t seen;
    bool is_smoothing;
};

/* Light of the room [codes above zero], mean of about a second. */
static inline int32_t ss_dark_subtraction_ambient_codes(const ss_dark_subtraction_t *self);

/* How much the light of the room moves [codes]: mean distance from its mean, noise of the dark slot included. */
static inline int32_t ss_dark_subtraction_swing_codes(const ss_dark_subtraction_t *self);

/* Whether the smoothed dark is taken off. */
static inline bool ss_dark_subtraction_is_smoothing(const ss_dark_subtraction_t *self);

/*
 * Prepares for a stream and drops all state.
 * light_rate_hz: Rate of the lit slot [Hz], 1 to 20,000.
 * dark_rate_hz: Rate of the dark slot [Hz]; the light's or a whole part of it.
 * shift256: Where in the interval of the dark slot the lit one lies after it [1/256], 0 to 255. From 128 on the dark sample of the same
 * instant lies after the lit one, by 256 less this.
 * light_zero_code: Code of the lit slot that stands for no light.
 * dark_zero_code: Code of the dark slot that stands for no light.
 * Returns: Whether the arguments are allowed.
 */
bool ss_dark_subtraction_start(ss_dark_subtraction_t *self, int32_t light_rate_hz, int32_t dark_rate_hz, int32_t shift256,
    int32_t light_zero_code, int32_t dark_zero_code);

/*
 * Takes the next sample of the dark slot.
 * code: The code.
 */
void ss_dark_subtraction_dark(ss_dark_subtraction_t *self, int32_t code);

/*
 * Takes the next sample of the lit slot. All dark samples up to its tick have been given.
 * light_code: The code.
 * Returns: Light of the LED [codes above zero].
 */
static inline int32_t ss_dark_subtraction_next(ss_dark_subtraction_t *self, int32_t light_code);

/*
 * Light of the room at a place [codes above zero].
 * place256: How long after the latest dark sample [1/256 of the interval], −128 to 256.
 */
static inline int32_t ss_dark_subtraction_room_at(const ss_dark_subtraction_t *self, int32_t place256);

static inline int32_t ss_dark_subtraction_ambient_codes(const ss_dark_subtraction_t *self)
{
    return ss_shift_round(self->level, SS_DARK_SUBTRACTION_FRACTION);
}

static inline int32_t ss_dark_subtraction_swing_codes(const ss_dark_subtraction_t *self)
{
    return ss_shift_round(self->swing, SS_DARK_SUBTRACTION_FRACTION);
}

static inline bool ss_dark_subtraction_is_smoothing(const ss_dark_subtraction_t *self)
{
    return self->is_smoothing;
}

static inline int32_t ss_dark_subtraction_next(ss_dark_subtraction_t *self, int32_t light_code)
{
    return ss_lit_slot_next(&self->own, light_code, self);
}

static inline int32_t ss_dark_subtraction_room_at(const ss_dark_subtraction_t *self, int32_t place256)
{
    return self->is_smoothing ? ss_shift_round(self->smooth, SS_DARK_SUBTRACTION_FRACTION)
        : (self->latest + ss_shift_round(self->slope * place256, 8));
}

#endif
