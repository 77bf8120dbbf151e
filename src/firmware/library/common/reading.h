/* Generated from SensorSim.Detection/Reading.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_COMMON_READING_H
#define SS_COMMON_READING_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* What a reading says. */
enum {
    SS_READING_KIND_HEART_RATE_ECG = 0, /* Heart rate from the ECG [1/1000 bpm]. */
    SS_READING_KIND_HEART_RATE_PULSE = 1, /* Heart rate from the pulse [1/1000 bpm]. */
    SS_READING_KIND_HEART_RATE_FUSED = 2, /* Heart rate from whichever signals are steady [1/1000 bpm]. */
    SS_READING_KIND_RR_MEAN = 3, /* Mean RR interval [1/1000 ms]. */
    SS_READING_KIND_SDNN = 4, /* Standard deviation of the RR intervals of normal beats [1/1000 ms]. */
    SS_READING_KIND_RMSSD = 5, /* Root mean square of successive differences of those [1/1000 ms]. */
    SS_READING_KIND_ARRIVAL = 6, /* Arrival time of one beat, R peak to foot by tangents [1/1000 ms]. */
    SS_READING_KIND_ARRIVAL_SPOT = 7, /* Median arrival time of the last 30 s [1/1000 ms]. */
    SS_READING_KIND_ARRIVAL_SPREAD = 8, /* Spread of those [1/1000 ms]. */
    SS_READING_KIND_SPO2 = 9, /* Oxygen saturation [1/1000 %]. */
    SS_READING_KIND_PERFUSION_INDEX = 10, /* Perfusion index [1/1000 %]. */
    SS_READING_KIND_RESPIRATION_RATE = 11, /* Breaths [1/1000 per minute]. */
    SS_READING_KIND_CADENCE = 12, /* Steps [1/1000 per minute]. */
    SS_READING_KIND_SYSTOLIC = 13, /* Systolic pressure [1/1000 mmHg]. */
    SS_READING_KIND_DIASTOLIC = 14, /* Diastolic pressure [1/1000 mmHg]. */
    SS_READING_KIND_PRESSURE_TREND = 15 /* Certain gradual change of the pressure from its calibration [1/1000 mmHg]. */
};

/* One number that a device may show. Members stand in the order of their size, so that it takes 24 bytes. */
struct ss_reading {
    int64_t ticks256; /* Where the data end that it was made of [1/256 tick]: its age at a time t is t minus this. */
    int64_t window_ticks256; /* How far those data reach back [1/256 tick]; 0 for one beat. */
    int32_t value_milli; /* The number, in thousandths of the kind's unit. */
    ss_reading_kind_t kind; /* What it says. */
    uint8_t quality; /* Trust, 0 to 255. */
};

/*
 * Creates a reading.
 * kind: What it says.
 * value_milli: The number, in thousandths of the kind's unit.
 * quality: Trust, 0 to 255.
 * ticks256: Where the data end that it was made of [1/256 tick].
 * window_ticks256: How far those data reach back [1/256 tick]; 0 for one beat.
 */
ss_reading_t ss_reading_make(ss_reading_kind_t kind, int32_t value_milli, uint8_t quality, int64_t ticks256, int64_t window_ticks256);

#endif
