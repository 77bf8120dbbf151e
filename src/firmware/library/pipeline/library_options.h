/* Generated from SensorSim.Detection/Pipeline/LibraryOptions.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PIPELINE_LIBRARY_OPTIONS_H
#define SS_PIPELINE_LIBRARY_OPTIONS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pipeline/tuning.h"
#include "pressure/pressure_calibration.h"
#include "pressure/trend_settings.h"
#include "readings/oxygen_table.h"

/* What the library must be told of its sensor and its wearer; the defaults do without. Read at the start, no part of the state. */
struct ss_library_options {
    ss_oxygen_table_t oxygen; /* From ratio of ratios to saturation, for the wavelengths of the sensor. */
    ss_pressure_calibration_t pressure; /* Calibration of the pressure by a cuff; with no point in it (0) there are no pressures. */
    ss_trend_settings_t trend; /* What the trend of the systolic pressure is looked for with. */
    ss_tuning_t tuning; /* Constants that may be set. */
    /* Local time at tick 0 [s], counted like the calibration's times and from a midnight,
    at least one day: 86,400 is the midnight before. */
    int64_t start_s;
};

/* The textbook line for oxygen, no calibration of pressure, the usual trend and constants, a start at midnight. */
static inline ss_library_options_t ss_library_options_default(void);

static inline ss_library_options_t ss_library_options_default(void)
{
    return (ss_library_options_t){ .oxygen = ss_oxygen_table_textbook(), .trend = ss_trend_settings_create(365, 128),
        .tuning = ss_tuning_usual(), .start_s = INT64_C(86400) };
}

#endif
