/* Generated from SensorSim.Detection/Pulses/FootLocator.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_FOOT_LOCATOR_H
#define SS_PULSES_FOOT_LOCATOR_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pulses/cubic_fits.h"

#define SS_FOOT_LOCATOR_MASK 255

/*
 * Fourth stage, once per upstroke: steepest point and foot by intersecting tangents, on minus the light.
 * Input: working samples of 27 bits; differences from the steepest sample brought to 15 bits. Product: see cubic_fit. Accumulator: 32 bits.
 * Worst case: see cubic_fit; level differences below 2^31, scaled to 22 bits before the division. Output: places in 1/256 working sample
 * relative to the sample looked round; three 32-bit divisions.
 */
struct ss_foot_locator {
    ss_cubic_fits_t fits;
    int32_t steepest256; /* Steepest point [1/256 working sample after the origin]. */
    int32_t foot256; /* Foot [1/256 working sample after the origin]. */
    int32_t minimum; /* The minimum before the upstroke, in the samples' unit. */
    int32_t minimum_back; /* Where the minimum lies, roughly [working samples before the origin]. */
    int32_t slope; /* Slope at the steepest point, × 2^14 / 2^scale_shift per working sample. */
    int32_t short_slope; /* Slope at the steepest point by the shortest fit, × 2^14 / 2^scale_shift per working sample. */
    int32_t scale_shift; /* Right shift that brought differences to 15 bits. */
};

/*
 * Computes the fits' weights.
 * windows: Lengths.
 */
void ss_foot_locator_restart(ss_foot_locator_t *self, const ss_pulse_windows_t *windows);

/*
 * Looks round a sample.
 * w: Lengths.
 * held: Minus the light: the latest 256 working samples, sample k at place k modulo 256.
 * origin: Place of a sample near the steepest one.
 * choice: Which fit, 0 the longest.
 * reach: How far before it the minimum may lie: the smaller of the longest reach and the time since the last pulse.
 * is_cut: Whether the samples before the reach are no signal: then the minimum must not lie at its end.
 * Returns: Whether there is an upstroke with a foot.
 */
bool ss_foot_locator_locate(ss_foot_locator_t *self, const ss_pulse_windows_t *w, const ss_word256_t *held, int32_t origin, int32_t choice,
    int32_t reach, bool is_cut);

/*
 * Where the pulse is fullest: the fit's slope passes zero, nearest before a place that is known to be a little late.
 * held: Minus the light: the latest 256 working samples, sample k at place k modulo 256.
 * from: That place, after the origin [working samples].
 * origin: The origin.
 * choice: Which fit.
 * most: How many samples it may be late.
 * Returns: Place after the origin [1/256 working sample]; the lowest word when there is none.
 */
int32_t ss_foot_locator_fullest256(const ss_foot_locator_t *self, const ss_word256_t *held, int32_t origin, int32_t from, int32_t choice,
    int32_t most);

#endif
