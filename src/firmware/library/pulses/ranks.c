/* Generated from SensorSim.Detection/Pulses/Ranks.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/words.h"
#include "pulses/ranks.h"

int32_t ss_ranks_of_eight(const ss_word8_t *values, int32_t rank)
{
    for (int32_t i = 0; i < SS_WORD8_LENGTH; i++) {
        int32_t below = 0;
        for (int32_t j = 0; j < SS_WORD8_LENGTH; j++) {
            below += ((values->at[j] < values->at[i]) || ((values->at[j] == values->at[i]) && (j < i))) ? 1 : 0;
        }

        if (below == rank) {
            return values->at[i];
        }
    }

    return values->at[0];
}
