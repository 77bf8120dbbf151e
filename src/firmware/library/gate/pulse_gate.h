/* Generated from SensorSim.Detection/Gate/PulseGate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_GATE_PULSE_GATE_H
#define SS_GATE_PULSE_GATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/gate_reason.h"
#include "gate/evidence.h"
#include "gate/gate_latch.h"
#include "gate/gate_time.h"
#include "gate/usable.h"

#define SS_PULSE_GATE_FEWEST_PULSES 5
#define SS_PULSE_GATE_FEWEST_INTERVALS 3
/* Noise makes upstrokes all the time, so pulses have to be more alike than beats. */
#define SS_PULSE_GATE_FAULTS_TO_STAY 6
/* Perfusion in thousandths: below 0.1 % nothing is given, from 0.12 % on again. */
#define SS_PULSE_GATE_REFUSED_PER100000 100
#define SS_PULSE_GATE_ENOUGH_PER100000 120
/* Room light that swings by this many pulses is not subtracted well enough. */
#define SS_PULSE_GATE_SWING_TO_SHUT 16
#define SS_PULSE_GATE_SWING_TO_OPEN 8
/*
 * A beat may have no pulse that is worth the name: for eight pulses after an interval that is half as long again or more, and while intervals
 * are uneven, the rate of the pulses may be too low.
 */
#define SS_PULSE_GATE_ODD_FOR_RATE 2
/* The spectrum looks 8 s back. */
#define SS_PULSE_GATE_AFTER_MOVEMENT_MS 8000
/* Movement that is too little to shut the gate takes trust, a point for each mg. */
#define SS_PULSE_GATE_MOST_LEVEL_MG 64

/*
 * Whether the light is steady enough for a reading, and why not. A value of fixed size: an assignment copies the whole state.
 * Input: pulses, unusable stretches, movement, room light and the time, in order of time. Product: amplitudes by 1000, 24 + 10 bits, in 64
 * bits. Accumulator: 64 bits. Worst case: see evidence and gate_latch. Output: open or shut with a reason, for feet and for the rate alone; a
 * quality of 0 to 255.
 */
struct ss_pulse_gate {
    ss_gate_time_t time;
    ss_gate_latch_t latch;
    ss_usable_t usable;
    ss_evidence_t evidence;
    int64_t moved256;
    int32_t amplitude;
    int32_t swing;
    bool is_moving;
    bool has_moved;
    bool is_held;
    bool is_weak;
    bool is_faint;
    bool is_lit;
    bool is_broken;
    bool have_partners;
    uint8_t since_longer;
    uint8_t level_mg;
    uint8_t strictness;
    uint8_t doubt;
    /* Whether a heart rate may be given now: as above, or under movement, where the spectrum vouches for itself. */
    bool is_open_for_rate;
    int64_t trusted_from_ticks256; /* The pulses that opened the gate begin here: a reading should use nothing older [1/256 tick]. */
};

/* Whether feet, arrival times, oxygen saturation and the rate of the pulses may be given now. */
static inline bool ss_pulse_gate_is_open(const ss_pulse_gate_t *self);

/* Why the gate is shut; none while it is open, even while a single pulse is held back. */
static inline ss_gate_reason_t ss_pulse_gate_reason(const ss_pulse_gate_t *self);

/* When the gate last opened or shut [1/256 tick]. */
static inline int64_t ss_pulse_gate_since_ticks256(const ss_pulse_gate_t *self);

/* Trust, 0 to 255; 0 while shut. */
static inline uint8_t ss_pulse_gate_quality(const ss_pulse_gate_t *self);

/*
 * Shuts, waiting, and forgets.
 * clock: The common clock.
 */
void ss_pulse_gate_start_1(ss_pulse_gate_t *self, ss_common_clock_t clock);

/*
 * Shuts, waiting, and forgets.
 * clock: The common clock.
 * tuning: How strict it is.
 */
void ss_pulse_gate_start_2(ss_pulse_gate_t *self, ss_common_clock_t clock, const ss_tuning_t *tuning);

/*
 * A stretch of unusable samples begins or goes on.
 * ticks256: Now [1/256 tick].
 * flags: Status bits (sample_flags); 0 when samples do not come.
 */
void ss_pulse_gate_unusable(ss_pulse_gate_t *self, int64_t ticks256, uint16_t flags);

/*
 * Usable samples come again.
 * ticks256: The first of them [1/256 tick].
 */
void ss_pulse_gate_usable(ss_pulse_gate_t *self, int64_t ticks256);

/*
 * The sensor's settings changed: heights before and after do not compare.
 * ticks256: When [1/256 tick].
 */
void ss_pulse_gate_step(ss_pulse_gate_t *self, int64_t ticks256);

/*
 * A pulse was found.
 * pulse: The pulse.
 * ticks256: Its foot [1/256 tick].
 * signal_level: Typical slope of pulses, as the detector keeps it.
 * noise_level: Typical slope of what is no pulse, in the same format.
 */
void ss_pulse_gate_pulse(ss_pulse_gate_t *self, const ss_pulse_event_t *pulse, int64_t ticks256, int32_t signal_level, int32_t noise_level);

/*
 * Whether pulses and beats of the ECG go together one to one: then the pulses are the heart's, however odd its rhythm.
 * have_partners: Whether the latest eight beats have a pulse at the usual time each.
 */
void ss_pulse_gate_partners(ss_pulse_gate_t *self, bool have_partners);

/*
 * How much the sensor moves.
 * level_mg: Level of movement [mg].
 * is_moving: Whether that is movement, by its own hysteresis.
 */
void ss_pulse_gate_movement(ss_pulse_gate_t *self, int32_t level_mg, bool is_moving);

/*
 * What the room's light does.
 * ambient_codes: Its level [codes].
 * swing_codes: How much it moves [codes].
 */
void ss_pulse_gate_ambient(ss_pulse_gate_t *self, int32_t ambient_codes, int32_t swing_codes);

/*
 * Time goes on: judges anew.
 * ticks256: Now [1/256 tick], never less than before.
 * Returns: Whether the gate opened or shut (the rate alone aside).
 */
bool ss_pulse_gate_advance(ss_pulse_gate_t *self, int64_t ticks256);

uint8_t ss_pulse_gate_sat255(int32_t trust);

static inline bool ss_pulse_gate_is_open(const ss_pulse_gate_t *self)
{
    return self->latch.is_open && (!self->is_held || self->have_partners) && !self->usable.is_bad;
}

static inline ss_gate_reason_t ss_pulse_gate_reason(const ss_pulse_gate_t *self)
{
    return self->latch.reason;
}

static inline int64_t ss_pulse_gate_since_ticks256(const ss_pulse_gate_t *self)
{
    return self->latch.since_ticks256;
}

static inline uint8_t ss_pulse_gate_quality(const ss_pulse_gate_t *self)
{
    return (uint8_t)(ss_pulse_gate_is_open(self) ? ss_pulse_gate_sat255(255 - (16 * self->evidence.faults) - self->level_mg) : 0);
}

#endif
