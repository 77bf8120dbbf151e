/* Generated from SensorSim.Detection/Beats/BeatWindows.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_WINDOWS_H
#define SS_BEATS_BEAT_WINDOWS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Lowest sampling rate [Hz]. */
#define SS_BEAT_WINDOWS_MINIMUM_RATE_HZ 100
/* Highest sampling rate [Hz]. */
#define SS_BEAT_WINDOWS_MAXIMUM_RATE_HZ 1000
/* Highest rate of working samples [Hz]. */
#define SS_BEAT_WINDOWS_MAXIMUM_WORKING_HZ 256

/*
 * Every length of the beat detector, in working samples, from milliseconds by whole-number arithmetic at start-up.
 * Rates above 256 Hz work on sums to four samples, so that a working sample never lasts less than 3.9 ms. The reasons for the lengths stand in
 * docs/detection.md.
 */
struct ss_beat_windows {
    int16_t decimation; /* Input samples in a working sample: 1 to 4. */
    int16_t first_sum; /* First moving sum, 20 ms: its first zero lies at 50 Hz. */
    int16_t second_sum; /* Second moving sum, 17 ms: its first zero lies near 60 Hz. */
    int16_t arm; /* Arm of the second difference, 28 ms: its top lies near 18 Hz. */
    int16_t sum_shift; /* Right shift after the first sum that keeps the band-pass within 32 bits. */
    int16_t integration; /* Moving integration of the magnitude, 100 ms. */
    int16_t delay; /* From the middle of a QRS complex to its peak in the integrated magnitude. */
    int16_t hold; /* A hump is complete when none higher came for 120 ms. */
    int16_t refractory; /* No two beats lie closer than this, 200 ms unless set. */
    int16_t wait; /* A strange candidate waits for 470 ms after its R peak for what may speak against it. */
    int16_t near_; /* Two candidates closer than 300 ms, one of them a known beat: the other one is none. */
    int16_t edge; /* What begins within 60 ms of the edge of a gap is not judged. */
    int16_t shape_step; /* Distance of the points of a shape, about 9 ms. */
    int16_t shape_reach; /* Reach of the search for a shape round the middle, in shape steps; about 80 ms. */
    int16_t bridge; /* Longest gap that is bridged, 250 ms, in input samples. */
    /* What is filled in after the last sample before a long gap, 500 ms, in input samples: by then everything is decided. */
    int16_t tail;
    int16_t paced_reach; /* Longest time from a pacing spike to the R peak of its beat, 250 ms, in input samples. */
    int32_t wide_spread; /* Spread above which a complex is wide: (32 ms)², in 1/16 shape step². */
    int16_t t_wave; /* Up to this long, 360 ms unless set, after a beat a candidate may be its T wave. */
    int16_t learning_block; /* A quarter of the learning time, 500 ms. */
    int16_t silence; /* Without a beat for 3 s the levels are learned anew. */
    int16_t slope_arm; /* Half-width of the slope measure, 8 ms. */
    int16_t steep_reach; /* Reach from the middle of the complex in which its steepest place is sought, 90 ms. */
    int16_t qrs_reach; /* Farthest start or end of the complex from its middle, 110 ms. */
    int16_t near_reach; /* Where the shape fits, the R peak lies within 16 ms. */
    int16_t quiet; /* Flat for 40 ms means outside the complex. */
    int16_t peak_arm; /* Half-width of the smoothing under the R peak and spacing of its parabola, 4 ms. */
    /* Height of the hump of a narrow QRS of 0.08 mV, 0 when codes per millivolt are unknown: nothing smaller is learned as beats. */
    int32_t least;
};

/*
 * Derives every length.
 * rate_hz: Sampling rate [Hz], 100 to 1000.
 * codes_per_mv256: Codes in a millivolt, times 256; 0 when unknown.
 */
ss_beat_windows_t ss_beat_windows_for_rate_2(int32_t rate_hz, int32_t codes_per_mv256);

/*
 * Derives every length.
 * rate_hz: Sampling rate [Hz], 100 to 1000.
 * codes_per_mv256: Codes in a millivolt, times 256; 0 when unknown.
 * tuning: Constants that may be set.
 */
ss_beat_windows_t ss_beat_windows_for_rate_3(int32_t rate_hz, int32_t codes_per_mv256, const ss_tuning_t *tuning);

#endif
