/* Generated from SensorSim.Detection/Movement/SineTable.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "movement/sine_table.h"

/* round(32767 sin(π i / 128)), i = 0 to 64. */
static const int16_t ss_sine_table_quarter[65] = {
    0, 804, 1608, 2410, 3212, 4011, 4808, 5602, 6393, 7179, 7962, 8739,
    9512, 10278, 11039, 11793, 12539, 13279, 14010, 14732, 15446, 16151, 16846, 17530,
    18204, 18868, 19519, 20159, 20787, 21403, 22005, 22594, 23170, 23731, 24279, 24811,
    25329, 25832, 26319, 26790, 27245, 27683, 28105, 28510, 28898, 29268, 29621, 29956,
    30273, 30571, 30852, 31113, 31356, 31580, 31785, 31971, 32137, 32285, 32412, 32521,
    32609, 32678, 32728, 32757, 32767,
};

int32_t ss_sine_table_sine(int32_t angle)
{
    int32_t place = angle & 127;
    int32_t value = ss_sine_table_quarter[(place <= 64) ? place : (128 - place)];
    return ((angle & 128) == 0) ? value : -value;
}

int32_t ss_sine_table_cosine(int32_t angle)
{
    return ss_sine_table_sine(angle + 64);
}

int32_t ss_sine_table_fine(int32_t angle16)
{
    int32_t place = ss_shift_right32(angle16, 8) & 255;
    int32_t here = ss_sine_table_sine(place);
    return here + ss_shift_right32((ss_sine_table_sine(place + 1) - here) * (angle16 & 255), 8);
}
