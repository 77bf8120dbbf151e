/* Generated from SensorSim.FixedPoint/Wide.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"

int64_t ss_wide_floor(int64_t value, int32_t bits)
{
    return ss_shift_right64(value, bits);
}

int64_t ss_wide_shifted(int64_t value, int32_t bits)
{
    return (bits >= 0) ? ss_shift_left64(value, (bits > 30) ? 30 : bits) : ss_shift_right64(value, (bits < -62) ? 62 : -bits);
}

int32_t ss_wide_log2_in256(int64_t value)
{
    int32_t bits = ss_wide_bits_int64(value);
    if (bits == 0) {
        return 0;
    }

    int32_t exponent = bits - 1;
    int64_t mantissa = (exponent >= 8) ? ss_shift_right64(value, exponent - 8) : ss_shift_left64(value, 8 - exponent);
    int32_t m = (int32_t)mantissa & 255;
    return ss_shift_left32(exponent, 8) + m + ss_shift_round(m * (256 - m) * 87, 16);
}

uint64_t ss_wide_divide(uint64_t numerator, uint32_t denominator)
{
    if (denominator <= UINT32_C(1)) {
        return numerator;
    }

    int32_t more = ss_wide_bits_uint64(numerator) - ss_wide_bits_int64((int64_t)denominator);
    more = (more < 0) ? 0 : more;
    uint64_t quotient = UINT64_C(0);
    uint32_t remainder = (uint32_t)ss_shift_rightu64(numerator, more);
    while (true) {
        uint32_t fits = (remainder >= denominator) ? UINT32_C(1) : UINT32_C(0);
        remainder -= denominator & (UINT32_C(0) - fits);
        quotient = (quotient << 1) | (uint64_t)fits;
        if (more == 0) {
            break;
        }

        more--;
        remainder = (remainder << 1) | (uint32_t)(ss_shift_rightu64(numerator, more) & UINT64_C(1));
    }

    return quotient + (uint64_t)((remainder >= (denominator - remainder)) ? UINT32_C(1) : UINT32_C(0));
}

uint32_t ss_wide_root(uint64_t value)
{
    uint64_t root = UINT64_C(0);
    for (uint64_t bit = UINT64_C(1) << 62; bit != UINT64_C(0); bit >>= 2) {
        uint64_t trial = root + bit;
        root >>= 1;
        if (value >= trial) {
            value -= trial;
            root += bit;
        }
    }

    return (uint32_t)root;
}
