/* Generated from SensorSim.Detection/Pulses/CurvatureFoot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PULSES_CURVATURE_FOOT_H
#define SS_PULSES_CURVATURE_FOOT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Said when there is no maximum inside the stretch. */
#define SS_CURVATURE_FOOT_NONE INT32_MIN
#define SS_CURVATURE_FOOT_MASK 255

/*
 * Looks for the largest second derivative.
 * held: Minus the light: the latest 256 working samples, sample k at place k modulo 256.
 * from: Place of the steepest sample.
 * back: How far before it the search goes, at least 2 working samples.
 * arm: Half-width m of the fit.
 * shift: Right shift that brings differences within the stretch to 15 bits.
 * Returns: Place after the steepest sample [1/256 working sample], negative; or none.
 */
int32_t ss_curvature_foot_find(const ss_word256_t *held, int32_t from, int32_t back, int32_t arm, int32_t shift);

#endif
