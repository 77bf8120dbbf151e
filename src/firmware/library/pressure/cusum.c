/* Generated from SensorSim.Detection/Pressure/Cusum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/sat.h"
#include "pressure/cusum.h"

void ss_cusum_add(ss_cusum_t *self, int32_t standardised256, int32_t deviation256, int32_t allowance256, int32_t most256, int32_t day)
{
    int32_t sum = self->sum256 + standardised256 - allowance256;
    if (sum <= 0) {
        *self = (ss_cusum_t){ 0 };
        return;
    }

    self->began_day = (self->count == 0) ? day : self->began_day;
    self->sum256 = (sum > most256) ? most256 : sum;
    if (self->count < SS_CUSUM_MOST_IN_RUN) {
        self->count++;
        self->deviations256 += deviation256 + self->moved256;
    }
}

void ss_cusum_move(ss_cusum_t *self, int32_t by256)
{
    self->moved256 = (self->count == 0) ? 0 : ss_sat_narrow(ss_sat_add32(self->moved256, by256), 1 << 16);
}
