/* Generated from SensorSim.Detection/CommonClock.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "common/common_clock.h"
#include "fixed_point/long_division.h"

ss_common_clock_t ss_common_clock_make(int64_t ticks_per_second)
{
    ss_common_clock_t made = { 0 };
    made.ticks_per_second = ticks_per_second;
    return made;
}

int64_t ss_common_clock_ticks256(ss_common_clock_t self, int32_t ms)
{
    return ((int64_t)ms * INT64_C(256) * self.ticks_per_second) / INT64_C(1000);
}

int32_t ss_common_clock_microseconds(ss_common_clock_t self, int64_t ticks256)
{
    /* ticks256 × 10^6 / (256 × ticks per second) = ticks256 × 15625 / (4 × ticks per second). */
    uint64_t numerator = (uint64_t)ticks256 * UINT64_C(15625);
    uint64_t denominator = (uint64_t)self.ticks_per_second * UINT64_C(4);
    while (denominator > UINT64_C(2147483647)) {
        numerator >>= 1;
        denominator >>= 1;
    }

    return ss_long_division_rounded(numerator, (uint32_t)denominator);
}

int32_t ss_common_clock_seconds(ss_common_clock_t self, int64_t ticks256)
{
    uint64_t numerator = (uint64_t)ticks256;
    uint64_t denominator = (uint64_t)self.ticks_per_second * UINT64_C(256);
    while (denominator > UINT64_C(2147483647)) {
        numerator >>= 1;
        denominator >>= 1;
    }

    return ss_long_division_rounded(numerator, (uint32_t)denominator);
}
