/* Generated from SensorSim.Detection/Pulses/CubicFits.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_CUBIC_FITS_H
#define SS_PULSES_CUBIC_FITS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"
#include "pulses/cubic_fit.h"

/* Fits held. */
#define SS_CUBIC_FITS_LENGTH 3
/* The shortest. */
#define SS_CUBIC_FITS_SHORTEST 2

/* Three cubic fits, the longest first. Steep upstrokes need short ones: a fit longer than 0.7 rise times reads the slope low. */
struct ss_cubic_fits {
    ss_cubic_fit_t at[3];
};

#endif
