/* Generated from SensorSim.FixedPoint/Median.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/median.h"
#include "fixed_point/words.h"

int32_t ss_median_of_up_to8(ss_view_int32_t values)
{
    /* How many come before each; of equal ones the earlier does. */
    ss_word8_t rank = (ss_word8_t){ 0 };
    int32_t count = (values.length < 8) ? values.length : 8;
    for (int32_t i = 1; i < count; i++) {
        int32_t value = values.at[i];
        int32_t before = 0;
        for (int32_t j = 0; j < i; j++) {
            int32_t is_before = (values.at[j] <= value) ? 1 : 0;
            before += is_before;
            rank.at[j] += 1 - is_before;
        }

        rank.at[i] = before;
    }

    int32_t middle = ss_shift_right32(count, 1);
    int32_t upper = 0;
    int32_t lower = 0;
    for (int32_t i = 0; i < count; i++) {
        upper = (rank.at[i] == middle) ? values.at[i] : upper;
        lower = (rank.at[i] == (middle - 1)) ? values.at[i] : lower;
    }

    return ((count & 1) != 0) ? upper : (ss_shift_right32(upper, 1) + ss_shift_right32(lower, 1) + (upper & lower & 1));
}
