/* Generated from SensorSim.FixedPoint/Sat.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"

int32_t ss_sat_add32(int32_t a, int32_t b)
{
    int32_t sum = ss_wrap_add32(a, b);
    return (((a ^ sum) & (b ^ sum)) < 0) ? ((sum < 0) ? INT32_MAX : INT32_MIN) : sum;
}

int32_t ss_sat_sub32(int32_t a, int32_t b)
{
    int32_t difference = ss_wrap_sub32(a, b);
    return (((a ^ b) & (a ^ difference)) < 0) ? ((difference < 0) ? INT32_MAX : INT32_MIN) : difference;
}

int16_t ss_sat_narrow16(int32_t value)
{
    return (int16_t)((value > 32767) ? 32767 : ((value < -32768) ? -32768 : (int16_t)value));
}

int32_t ss_sat_narrow(int32_t value, int32_t limit)
{
    return (value > limit) ? limit : ((value < -limit) ? -limit : value);
}
