/* Generated from SensorSim.FixedPoint/Shift.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"

int32_t ss_shift_needed(int32_t magnitude, int32_t bits)
{
    /* Unsigned, so that the loop ends even for a negative number that should not have come here. */
    int32_t shift = 0;
    while (ss_shift_rightu32(ss_shift_rightu32((uint32_t)magnitude, shift), bits) != UINT32_C(0)) {
        shift++;
    }

    return shift;
}
