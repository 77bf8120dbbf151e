/* Generated from SensorSim.FixedPoint/IntegerRoot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/integer_root.h"

uint32_t ss_integer_root_floor(uint32_t value)
{
    uint32_t root = UINT32_C(0);
    for (uint32_t bit = UINT32_C(1) << 30; bit != UINT32_C(0); bit >>= 2) {
        uint32_t trial = root + bit;
        root >>= 1;
        if (value >= trial) {
            value -= trial;
            root += bit;
        }
    }

    return root;
}
