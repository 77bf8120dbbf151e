/* Generated from SensorSim.Detection/Pulses/PulseWindows.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_PULSE_WINDOWS_H
#define SS_PULSES_PULSE_WINDOWS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Lowest sampling rate [Hz]. */
#define SS_PULSE_WINDOWS_MINIMUM_RATE_HZ 25
/* Highest sampling rate [Hz]. */
#define SS_PULSE_WINDOWS_MAXIMUM_RATE_HZ 500

/*
 * Every length of the pulse detector, in working samples, by whole-number arithmetic at start-up.
 * From 200 Hz on it works on sums of two or more samples. The reasons for the lengths stand in docs/detection.md.
 */
struct ss_pulse_windows {
    int16_t decimation; /* Input samples in a working sample, 1 to 5. */
    int16_t watch_arm; /* Half-width of the straight-line fit that watches for upstrokes, 60 ms. */
    int16_t fit_arm; /* Half-width of the longest cubic fit that measures the upstroke, 50 ms; see cubic_fits for the shorter ones. */
    int16_t fit_arm1; /* The second longest, 33 ms. */
    int16_t fit_arm2; /* The shortest, 20 ms. */
    int16_t steep_reach; /* Reach round the watched top in which the steepest place is sought, 10 ms. */
    int16_t minimum_reach; /* How far before the steepest place the minimum is sought at most, 400 ms. */
    int16_t refractory; /* Least time from one steepest place to the next, 270 ms unless set. */
    int16_t longest_rise; /* Longest upstroke, 400 ms. */
    int16_t learning_block; /* A quarter of the learning time, 500 ms. */
    int16_t noise_block; /* Length of one estimate of the noise, 100 ms. */
    int16_t silence; /* Without a pulse for that long, 1.5 s, or for two intervals, the level may be learned anew, within limits. */
    int16_t long_silence; /* Without a pulse for that long, 4 s, it is learned anew without limits. */
    int16_t first_interval; /* What an interval is taken for before there is one, 750 ms. */
    int16_t early; /* Until then, 420 ms after a steepest point, the diastolic wave may rise. */
    int16_t afterwards; /* What is left of the last pulse is over after that long, 500 ms. */
    int16_t refused_apart; /* Longest time between two refused upstrokes that belong together, 2.5 s. */
    int16_t settling; /* After a change of settings the light has settled, 50 ms [input samples]. */
    int16_t bridge; /* Longest gap that a straight line bridges, 250 ms [input samples]. */
    /* A gap of up to 10 ms between samples 20 ms apart hardly bends a foot: it is bridged without a mark [input samples]. */
    int16_t short_bridge;
};

/*
 * Derives every length.
 * rate_hz: Sampling rate [Hz], 25 to 500.
 */
ss_pulse_windows_t ss_pulse_windows_for_rate_1(int32_t rate_hz);

/*
 * Derives every length.
 * rate_hz: Sampling rate [Hz], 25 to 500.
 * tuning: Constants that may be set.
 */
ss_pulse_windows_t ss_pulse_windows_for_rate_2(int32_t rate_hz, const ss_tuning_t *tuning);

/*
 * Half-width of a fit.
 * choice: Which, 0 the longest.
 */
int32_t ss_pulse_windows_arm(const ss_pulse_windows_t *self, int32_t choice);

/*
 * Which fit suits a rise time: the longest whose half-width is at most 0.7 of it.
 * rise16: Height of the pulse over its steepest slope [1/16 working sample]; 0 when not known.
 */
int32_t ss_pulse_windows_fit_for(const ss_pulse_windows_t *self, int32_t rise16);

/*
 * How far before the steepest place the minimum is sought: two rise times and half a fit, at most 400 ms.
 * rise16: Height of the pulse over its steepest slope [1/16 working sample]; 0 when not known.
 */
int32_t ss_pulse_windows_reach_for(const ss_pulse_windows_t *self, int32_t rise16);

#endif
