/* Generated from SensorSim.FixedPoint/Q15.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/q15.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"

int16_t ss_q15_multiply(int16_t a, int16_t b)
{
    return ss_sat_narrow16(ss_shift_round(a * b, 15));
}

int16_t ss_q15_multiply_floor(int16_t a, int16_t b)
{
    return ss_sat_narrow16(ss_shift_floor(a * b, 15));
}
