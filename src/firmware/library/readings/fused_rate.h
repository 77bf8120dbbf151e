/* Generated from SensorSim.Detection/Readings/FusedRate.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_FUSED_RATE_H
#define SS_READINGS_FUSED_RATE_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "common/reading.h"
#include "readings/beat_clock.h"

#define SS_FUSED_RATE_STEPS_PER_SECOND 2
#define SS_FUSED_RATE_NEAR_MILLI 4000
#define SS_FUSED_RATE_LEAD 64
#define SS_FUSED_RATE_TRUSTED_ECG 144

/*
 * One heart rate from up to three: of the ECG, of the pulse, and of the pulse's spectrum under movement.
 * Trust falls with age, to half at 4 s and to nothing at 8 s. Two that agree within 4 bpm or a sixteenth confirm each other: the better one is
 * given, with half of the other's trust on top. The value given is always one of the inputs with its window, never a mean, so that it stays a
 * rate over named beats. When none agree, the best is given with half its trust, if it leads by a quarter of the scale, and else none; but an
 * ECG trusted by 144 and more is believed against lower rates of the light, with half its trust, for not every beat makes a pulse. Input:
 * readings in 1/1000 bpm. Product: age × 2, 32 bits. Accumulator: 32 bits. Worst case: rates above 2^31 / 1000 do not come. Output: one of the
 * inputs as it is, its quality changed; up to three long divisions, a few times a second at most.
 */
struct ss_fused_rate {
    ss_beat_clock_t clock;
    ss_reading_t latest;
};

/* The latest value; quality 0 until there was one. */
static inline ss_reading_t ss_fused_rate_latest(const ss_fused_rate_t *self);

/*
 * Forgets.
 * clock: The common clock.
 */
void ss_fused_rate_start(ss_fused_rate_t *self, ss_common_clock_t clock);

/*
 * Looks at the latest rates. Call it when one of them is new; quality 0 stands for none.
 * ecg: Rate of the ECG.
 * pulse: Rate of the pulse, beat by beat.
 * spectrum: Rate of the pulse's spectrum.
 * now_ticks256: The present [1/256 tick].
 * Returns: Whether there is a new value.
 */
bool ss_fused_rate_update(ss_fused_rate_t *self, const ss_reading_t *ecg, const ss_reading_t *pulse, const ss_reading_t *spectrum,
    int64_t now_ticks256);

static inline ss_reading_t ss_fused_rate_latest(const ss_fused_rate_t *self)
{
    return self->latest;
}

#endif
