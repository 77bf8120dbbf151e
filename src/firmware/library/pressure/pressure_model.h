/* Generated from SensorSim.Detection/Pressure/PressureModel.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_PRESSURE_PRESSURE_MODEL_H
#define SS_PRESSURE_PRESSURE_MODEL_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/*
 * Published forms of pressure P against arrival time T, each with two constants a and b.
 * Same slope at the calibration, different curvature: linear is local; the logarithm follows from Moens and Korteweg with the exponential
 * elasticity of Hughes 1979; the inverse square from energy and Bramwell and Hill; pulse pressure from Poon and Zhang 2005 (the last three
 * attributions from memory). Which of them suits a person is not settled.
 */
enum {
    SS_PRESSURE_MODEL_LINEAR = 0, /* P = a + b T. */
    SS_PRESSURE_MODEL_LOGARITHMIC = 1, /* P = a + b ln T. */
    SS_PRESSURE_MODEL_INVERSE = 2, /* P = a + b / T. */
    SS_PRESSURE_MODEL_INVERSE_SQUARE = 3, /* P = a + b / T². */
    /* Mean pressure M = a + b ln T; systolic less diastolic as 1 / T²; systolic M + 2/3, diastolic M − 1/3 of that. */
    SS_PRESSURE_MODEL_PULSE_PRESSURE = 4
};

#endif
