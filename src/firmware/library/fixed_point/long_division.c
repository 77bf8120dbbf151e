/* Generated from SensorSim.FixedPoint/LongDivision.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"

int32_t ss_long_division_rounded(uint64_t numerator, uint32_t denominator)
{
    if (denominator == UINT32_C(0)) {
        return INT32_MAX;
    }

    /* The numerator has so many bits more: the quotient lies between 2^(more − 1) and 2^(more + 1). */
    int32_t more = ss_leading_zeros64((uint64_t)denominator) - ss_leading_zeros64(numerator);
    if (more > 31) {
        return INT32_MAX;
    }

    more = (more < 0) ? 0 : more;
    uint32_t quotient = UINT32_C(0);
    uint32_t remainder = (uint32_t)ss_shift_rightu64(numerator, more);
    uint32_t rest = (uint32_t)(numerator & (ss_shift_leftu64(UINT64_C(1), more) - UINT64_C(1)));
    while (true) {
        uint32_t fits = (remainder >= denominator) ? UINT32_C(1) : UINT32_C(0);
        remainder -= denominator & (UINT32_C(0) - fits);
        quotient = (quotient << 1) | fits;
        if (more == 0) {
            break;
        }

        more--;
        remainder = (remainder << 1) | (ss_shift_rightu32(rest, more) & UINT32_C(1));
    }

    if (quotient >= UINT32_C(2147483647)) {
        return INT32_MAX;
    }

    return (int32_t)quotient + ((remainder >= (denominator - remainder)) ? 1 : 0);
}
