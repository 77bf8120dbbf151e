/* Generated from SensorSim.Detection/Pressure/ArrivalShape.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/log2.h"
#include "fixed_point/long_division.h"
#include "fixed_point/shift.h"
#include "pressure/arrival_shape.h"
#include "pressure/pressure_model.h"

static int32_t ss_arrival_shape_ratio_q24(int32_t over_us, int32_t under_us);

int32_t ss_arrival_shape_q24(ss_pressure_model_t model, int32_t time_us, int32_t reference_us)
{
    switch (model) {
        case SS_PRESSURE_MODEL_LINEAR:
            return ss_arrival_shape_ratio_q24(time_us, reference_us) - SS_ARRIVAL_SHAPE_ONE;
        case SS_PRESSURE_MODEL_INVERSE:
            return SS_ARRIVAL_SHAPE_ONE - ss_arrival_shape_ratio_q24(reference_us, time_us);
        case SS_PRESSURE_MODEL_INVERSE_SQUARE:
            return ss_shift_round(SS_ARRIVAL_SHAPE_ONE - ss_arrival_shape_square_q24(reference_us, time_us), 1);
        default:
            return ss_log2_natural_q24((uint32_t)time_us) - ss_log2_natural_q24((uint32_t)reference_us);
    }
}

int32_t ss_arrival_shape_square_q24(int32_t over_us, int32_t under_us)
{
    int64_t ratio = (int64_t)ss_arrival_shape_ratio_q24(over_us, under_us);
    return (int32_t)ss_shift_right64((ratio * ratio) + (int64_t)8388608, SS_LOG2_FRACTION_BITS);
}

int32_t ss_arrival_shape_times(int32_t value, int32_t q24)
{
    int64_t product = ((int64_t)value * (int64_t)q24) + (int64_t)8388608;
    product = ss_shift_right64(product, SS_LOG2_FRACTION_BITS);
    return (product > INT64_C(2147483647)) ? INT32_MAX : ((product < -INT64_C(2147483647)) ? -2147483647 : (int32_t)product);
}

static int32_t ss_arrival_shape_ratio_q24(int32_t over_us, int32_t under_us)
{
    return ss_long_division_rounded((uint64_t)(uint32_t)over_us << SS_LOG2_FRACTION_BITS, (uint32_t)under_us);
}
