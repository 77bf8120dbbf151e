/* Generated from SensorSim.Detection/Readings/OxygenTable.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/shift.h"
#include "readings/oxygen_table.h"
#include "readings/rings.h"

ss_oxygen_table_t ss_oxygen_table_textbook(void)
{
    ss_oxygen_table_t table = (ss_oxygen_table_t){ 0 };
    (void)ss_oxygen_table_add(&table, 4000, 100000);
    (void)ss_oxygen_table_add(&table, 44000, 0);
    return table;
}

bool ss_oxygen_table_add(ss_oxygen_table_t *self, int32_t ratio, int32_t milli_percent)
{
    int32_t percent = ss_shift_round(milli_percent, 1);
    if ((self->count == SS_OXYGEN_TABLE_MOST_PAIRS) || (ratio < 1) || (ratio > 65535) || (milli_percent < 0) || (milli_percent > 100000)
        || ((self->count > 0) && ((ratio <= self->ratios.at[self->count - 1]) || (percent >= self->percents.at[self->count - 1])))) {
        return false;
    }

    self->ratios.at[self->count] = (uint16_t)ratio;
    self->percents.at[self->count] = (uint16_t)percent;
    self->count++;
    return true;
}

int32_t ss_oxygen_table_milli_percent(const ss_oxygen_table_t *self, int32_t ratio)
{
    if ((self->count == 0) || (ratio <= self->ratios.at[0])) {
        return 2 * self->percents.at[0];
    }

    int32_t i = 1;
    while ((i < self->count) && (self->ratios.at[i] < ratio)) {
        i++;
    }

    if (i == self->count) {
        return 2 * self->percents.at[self->count - 1];
    }

    uint32_t fall = UINT32_C(2) * (uint32_t)(self->percents.at[i - 1] - self->percents.at[i]);
    uint32_t from = (uint32_t)(ratio - self->ratios.at[i - 1]);
    return (2 * self->percents.at[i - 1]) - ss_long_division_rounded((uint64_t)fall * (uint64_t)from,
        (uint32_t)(self->ratios.at[i] - self->ratios.at[i - 1]));
}
