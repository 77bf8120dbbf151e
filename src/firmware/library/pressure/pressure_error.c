/* Generated from SensorSim.Detection/Pressure/PressureError.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/integer_root.h"
#include "fixed_point/long_division.h"
#include "pressure/pressure_error.h"

int32_t ss_pressure_error_centi(bool is_systolic, int32_t age_days, int32_t slope_milli, int32_t spread_us, int32_t off_milli)
{
    uint64_t square = is_systolic ? ((uint64_t)SS_PRESSURE_ERROR_SYSTOLIC_BASE
        + ((uint64_t)age_days * (uint64_t)SS_PRESSURE_ERROR_SYSTOLIC_PER_DAY))
        : ((uint64_t)SS_PRESSURE_ERROR_DIASTOLIC_BASE + ((uint64_t)age_days * (uint64_t)SS_PRESSURE_ERROR_DIASTOLIC_PER_DAY));

    /* 1/1000 mmHg per ms × µs is 10^-6 mmHg: a quarter of it in 1/100 mmHg is a 40,000th. */
    uint64_t of_spread = (uint64_t)ss_long_division_rounded((uint64_t)slope_milli * (uint64_t)spread_us, UINT32_C(40000));
    uint64_t of_distance = (uint64_t)ss_long_division_rounded((uint64_t)off_milli, UINT32_C(10));
    square += (of_spread * of_spread) + (of_distance * of_distance);
    return (int32_t)ss_integer_root_floor((square > UINT64_C(4294967295)) ? UINT32_C(4294967295) : (uint32_t)square);
}

uint8_t ss_pressure_error_quality(int32_t centi)
{
    int32_t left = SS_PRESSURE_ERROR_MOST - centi;
    return (uint8_t)((left <= 0) ? 0 : ((left >= 500) ? 255 : (uint8_t)((left * 51) / 100)));
}
