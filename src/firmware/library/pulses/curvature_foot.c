/* Generated from SensorSim.Detection/Pulses/CurvatureFoot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/parabola.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "pulses/curvature_foot.h"

static int32_t ss_curvature_foot_value(const ss_word256_t *held, int32_t at, int32_t arm, int32_t shift);
static int32_t ss_curvature_foot_clipped(int32_t difference, int32_t shift);

int32_t ss_curvature_foot_find(const ss_word256_t *held, int32_t from, int32_t back, int32_t arm, int32_t shift)
{
    int32_t best = 0;
    int32_t top = INT32_MIN;
    int32_t before_top = 0;
    int32_t after_top = 0;
    int32_t last = ss_curvature_foot_value(held, from + 1, arm, shift);
    int32_t here = ss_curvature_foot_value(held, from, arm, shift);
    for (int32_t i = 0; i <= back; i++) {
        int32_t next = ss_curvature_foot_value(held, from - i - 1, arm, shift);
        if (here > top) {
            top = here;
            best = i;
            before_top = next;
            after_top = last;
        }

        last = here;
        here = next;
    }

    bool is_inside = (best > 0) && (before_top <= top) && (after_top <= top);
    return is_inside ? (ss_parabola_vertex256(before_top, top, after_top) - (best * 256)) : SS_CURVATURE_FOOT_NONE;
}

static int32_t ss_curvature_foot_value(const ss_word256_t *held, int32_t at, int32_t arm, int32_t shift)
{
    int32_t middle = held->at[at & SS_CURVATURE_FOOT_MASK];
    int32_t constant = arm * (arm + 1);
    int32_t sum = 0;
    for (int32_t k = 1; k <= arm; k++) {
        int32_t pair = ss_curvature_foot_clipped(held->at[(at + k) & SS_CURVATURE_FOOT_MASK] - middle, shift)
            + ss_curvature_foot_clipped(held->at[(at - k) & SS_CURVATURE_FOOT_MASK] - middle, shift);
        sum += ((3 * k * k) - constant) * pair;
    }

    return sum;
}

/* What lies outside of the stretch that the shift was found for may be larger: it clips. */
static int32_t ss_curvature_foot_clipped(int32_t difference, int32_t shift)
{
    return ss_sat_narrow(ss_shift_round(difference, shift), 32767);
}
