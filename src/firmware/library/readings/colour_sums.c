/* Generated from SensorSim.Detection/Readings/ColourSums.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/wide.h"
#include "readings/colour_sums.h"

static int32_t ss_colour_sums_above(uint64_t value, int32_t bits);

int32_t ss_colour_sums_quarters(const ss_colour_sums_t *self, int32_t shift)
{
    if ((self->infrared_power <= INT64_C(0)) || (self->count == 0)) {
        return 0;
    }

    /* Bits count octaves, the two below the top one the quarters (linear in between: within a tenth of an octave). */
    uint64_t mean = ss_wide_divide((uint64_t)self->infrared_power << 2, (uint32_t)self->count);
    int32_t bits = ss_wide_bits_uint64(mean);
    int32_t below = (bits < 3) ? 0 : (int32_t)(ss_shift_rightu64(mean, bits - 3) & UINT64_C(3));
    return (4 * (bits + (2 * shift))) + below;
}

void ss_colour_sums_clear(ss_colour_sums_t *self)
{
    self->cross = INT64_C(0);
    self->infrared_power = INT64_C(0);
    self->red_power = INT64_C(0);
    self->red_level = INT64_C(0);
    self->infrared_level = INT64_C(0);
    self->count = 0;
}

void ss_colour_sums_add(ss_colour_sums_t *self, int32_t red, int32_t infrared, int32_t red_sum, int32_t infrared_sum)
{
    self->cross += ((int64_t)red * (int64_t)self->infrared_before) + ((int64_t)infrared * (int64_t)self->red_before);
    self->infrared_power += INT64_C(2) * (int64_t)infrared * (int64_t)self->infrared_before;
    self->red_power += INT64_C(2) * (int64_t)red * (int64_t)self->red_before;
    self->red_level += (int64_t)red_sum;
    self->infrared_level += (int64_t)infrared_sum;
    self->red_before = red;
    self->infrared_before = infrared;
    self->count++;
}

bool ss_colour_sums_try_ratio(const ss_colour_sums_t *self, int32_t *ratio)
{
    (*ratio) = 0;
    if ((self->cross <= INT64_C(0)) || (self->infrared_power <= INT64_C(0)) || (self->red_power <= INT64_C(0))
        || (self->red_level <= INT64_C(0)) || (self->infrared_level <= INT64_C(0))) {
        return false;
    }

    uint64_t cross = (uint64_t)self->cross;
    uint64_t infrared = (uint64_t)self->infrared_power;
    uint64_t red = (uint64_t)self->red_power;
    int32_t down = ss_colour_sums_above(cross | infrared | red, 30);
    uint64_t c = ss_shift_rightu64(cross, down);
    if ((UINT64_C(2) * c * c) < (ss_shift_rightu64(infrared, down) * ss_shift_rightu64(red, down))) {
        return false;
    }

    /* Slope in Q11.20, ratio of the levels in Q15.16. */
    down = ss_colour_sums_above(infrared, 31);
    int32_t up = 62 - ss_wide_bits_uint64(ss_shift_rightu64(cross, down));
    up = (up > 20) ? 20 : ((up < 0) ? 0 : up);
    uint64_t slope = ss_shift_leftu64((uint64_t)ss_long_division_rounded(ss_shift_leftu64(ss_shift_rightu64(cross, down), up),
        (uint32_t)ss_shift_rightu64(infrared, down)), 20 - up);
    down = ss_colour_sums_above((uint64_t)self->red_level, 31);
    uint64_t levels = (uint64_t)ss_long_division_rounded(ss_shift_rightu64((uint64_t)self->infrared_level, down) << 16,
        (uint32_t)ss_shift_rightu64((uint64_t)self->red_level, down));
    if ((ss_wide_bits_uint64(slope) + ss_wide_bits_uint64(levels)) > 49) {
        return false;
    }

    uint64_t scaled = ((slope * levels * UINT64_C(10000)) + (UINT64_C(1) << 35)) >> 36;
    (*ratio) = (scaled > UINT64_C(65535)) ? 65535 : (int32_t)scaled;
    return true;
}

static int32_t ss_colour_sums_above(uint64_t value, int32_t bits)
{
    int32_t more = ss_wide_bits_uint64(value) - bits;
    return (more < 0) ? 0 : more;
}
