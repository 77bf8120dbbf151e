/* Generated from SensorSim.Detection/Readings/Regularity.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/median.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/words.h"
#include "readings/regularity.h"

static bool ss_regularity_is_long(const ss_word8_t *recent, int32_t count, int32_t limit);

int32_t ss_regularity_usable(const ss_word8_t *recent, int32_t count, bool *is_regular)
{
    int32_t middle = ss_median_of_up_to8(ss_view_int32_slice(ss_view_int32_of(recent->at, 8), 0, count));
    int32_t near_ = ss_shift_floor(middle, 3);
    int32_t odd = 0;
    int32_t doubles = 0;
    int32_t cuts = 0;
    int32_t last = -1;
    for (int32_t i = 0; i < count; i++) {
        if (ss_sat_abs32(recent->at[i] - middle) <= near_) {
            continue;
        }

        /* Of about twice the median: a beat is missing. Two neighbours that make one: a beat too many. */
        bool is_double = ss_sat_abs32(recent->at[i] - (2 * middle)) <= (2 * near_);
        bool is_cut = (i > 0) && (recent->at[i] < middle) && (recent->at[i - 1] < (middle - near_))
            && (ss_sat_abs32(recent->at[i] + recent->at[i - 1] - middle) <= near_);
        doubles += is_double ? 1 : 0;
        cuts += is_cut ? 1 : 0;
        last = (is_double || is_cut) ? i : last;
        odd++;
    }

    /* One alone is a mistake, though R peaks that scatter make other intervals odd as well; where they recur it is the heart. */
    bool is_mistake = ((doubles + cuts) == 1) && (odd <= SS_REGULARITY_MOST_ODD);
    (*is_regular) = (odd == 0) || (is_mistake && (odd <= 2));
    if ((odd > 0) && (odd <= 2) && (last < 0) && (recent->at[count - 1] < (middle - near_))
        && !ss_regularity_is_long(recent, count, middle + near_)) {
        /* Early, or one too many? The next one tells. */
        return 0;
    }

    return is_mistake ? (count - 1 - last) : count;
}

static bool ss_regularity_is_long(const ss_word8_t *recent, int32_t count, int32_t limit)
{
    bool is_long = false;
    for (int32_t i = 0; i < count; i++) {
        is_long = is_long | (recent->at[i] > limit);
    }

    return is_long;
}
