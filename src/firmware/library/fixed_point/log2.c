/* Generated from SensorSim.FixedPoint/Log2.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/log2.h"
#include "fixed_point/shift.h"

int32_t ss_log2_q24(uint32_t value)
{
    if (value == UINT32_C(0)) {
        return 0;
    }

    int32_t whole = 31;
    uint32_t mantissa = value;
    while ((mantissa & UINT32_C(0x80000000)) == UINT32_C(0)) {
        mantissa <<= 1;
        whole--;
    }

    int32_t result = whole;
    for (int32_t bit = 0; bit <= SS_LOG2_FRACTION_BITS; bit++) {
        uint64_t square = (uint64_t)mantissa * (uint64_t)mantissa;
        bool is_two_or_more = (square >> 63) != UINT64_C(0);
        result = ss_shift_left32(result, 1) | (is_two_or_more ? 1 : 0);
        mantissa = (uint32_t)ss_shift_rightu64(square, is_two_or_more ? 32 : 31);
    }

    return ss_shift_round(result, 1);
}

int32_t ss_log2_natural_q24(uint32_t value)
{
    return (int32_t)ss_shift_right64(((int64_t)ss_log2_q24(value) * SS_LOG2_LN_OF2) + (INT64_C(1) << 31), 32);
}
