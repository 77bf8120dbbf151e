/* Generated from SensorSim.Detection/Pressure/PressureCalibration.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "pressure/cuff_point.h"
#include "pressure/pressure_calibration.h"
#include "pressure/pressure_model.h"

ss_pressure_calibration_t ss_pressure_calibration_one_point(ss_pressure_model_t model, ss_cuff_point_t first)
{
    return (ss_pressure_calibration_t){ .model = model, .points = 1, .first = first,
        .zeta_micro_per_mm_hg = SS_PRESSURE_CALIBRATION_USUAL_ZETA_MICRO_PER_MM_HG,
        .diastolic_share_permille = SS_PRESSURE_CALIBRATION_USUAL_DIASTOLIC_SHARE_PERMILLE,
        .longest_age_days = SS_PRESSURE_CALIBRATION_USUAL_LONGEST_AGE_DAYS,
        .reach_milli_mm_hg = SS_PRESSURE_CALIBRATION_USUAL_REACH_MILLI_MM_HG };
}

ss_pressure_calibration_t ss_pressure_calibration_two_point(ss_pressure_model_t model, ss_cuff_point_t first, ss_cuff_point_t second)
{
    ss_pressure_calibration_t changed = ss_pressure_calibration_one_point(model, first);
    changed.points = 2;
    changed.second = second;
    return changed;
}
