/* Generated from SensorSim.Detection/Movement/NormalisedStep.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "movement/movement_words.h"
#include "movement/normalised_step.h"

int32_t ss_normalised_step_estimate(const ss_word12_t *weights, const ss_word12_t *functions)
{
    ss_view_int32_t w = ss_view_int32_of(weights->at, 12);
    ss_view_int32_t u = ss_view_int32_of(functions->at, 12);
    int64_t sum = INT64_C(0);
    for (int32_t i = 0; (i < w.length) && (i < u.length); i++) {
        sum += (int64_t)w.at[i] * (int64_t)u.at[i];
    }

    return ss_wide_narrow(ss_wide_round(sum, SS_NORMALISED_STEP_WEIGHT_BITS), SS_NORMALISED_STEP_ESTIMATE_RAIL);
}

void ss_normalised_step_learn(ss_word12_t *weights, const ss_word12_t *functions, int32_t first, int32_t count, int32_t error,
    int32_t power_bits, int32_t step_shift)
{
    int32_t shift = power_bits + step_shift - SS_NORMALISED_STEP_WEIGHT_BITS;
    shift = (shift < 0) ? 0 : shift;
    ss_room_int32_t w = ss_room_int32_slice(ss_room_int32_of(weights->at, 12), first, count);
    ss_view_int32_t u = ss_view_int32_slice(ss_view_int32_of(functions->at, 12), first, count);
    int64_t half = ss_shift_right64(ss_shift_left64(INT64_C(1), shift), 1);
    for (int32_t i = 0; (i < w.length) && (i < u.length); i++) {
        w.at[i] = ss_wide_narrow((int64_t)w.at[i] + ss_shift_right64(((int64_t)error * (int64_t)u.at[i]) + half, shift),
            SS_NORMALISED_STEP_WEIGHT_RAIL);
    }
}

void ss_normalised_step_shrink(ss_word12_t *weights, int32_t bits)
{
    for (int32_t i = 0; i < SS_WORD12_LENGTH; i++) {
        weights->at[i] -= ss_shift_round(weights->at[i], bits);
    }
}
