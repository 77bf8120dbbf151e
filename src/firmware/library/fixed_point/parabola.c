/* Generated from SensorSim.FixedPoint/Parabola.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/parabola.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"

int32_t ss_parabola_vertex256(int32_t before, int32_t middle, int32_t after)
{
    int32_t left = ss_shift_right32(middle, 2) - ss_shift_right32(before, 2);
    int32_t right = ss_shift_right32(middle, 2) - ss_shift_right32(after, 2);
    if ((ss_sat_abs32(left) < (1 << 26)) && (ss_sat_abs32(right) < (1 << 26))) {
        left = middle - before;
        right = middle - after;
    }

    int32_t larger = (ss_sat_abs32(left) > ss_sat_abs32(right)) ? ss_sat_abs32(left) : ss_sat_abs32(right);
    int32_t shift = ss_shift_needed(larger, 22);
    left = ss_shift_floor(left, shift);
    right = ss_shift_floor(right, shift);
    int32_t curvature = left + right;
    if (curvature == 0) {
        return 0;
    }

    /* Vertex = (left − right) / (2 (left + right)) spacings; 128 × 2 = 256. */
    int32_t magnitude = ss_sat_abs32(curvature);
    int32_t rise = (curvature > 0) ? (left - right) : (right - left);
    int32_t offset = ((ss_sat_abs32(rise) * 128) + ss_shift_right32(magnitude, 1)) / magnitude;
    return ss_sat_narrow((rise < 0) ? -offset : offset, 128);
}
