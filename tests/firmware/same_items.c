/* SPDX-License-Identifier: MIT */
/* The adapter's items and those of a setup frame are the same numbers; compiled by tests/firmware/vectors.sh, never run. */
#include "library_adapter.h"
#include "sensorsim_link.h"

SS_CHECK(start, (int)SS_ADAPTER_START_S == (int)SS_LINK_SETUP_START_S);
SS_CHECK(tuning, (int)SS_ADAPTER_TUNING == (int)SS_LINK_SETUP_BEAT_REFRACTORY_MS && (int)SS_ADAPTER_TUNING + 8 == (int)SS_LINK_SETUP_DOUBT);
SS_CHECK(pairs, (int)SS_ADAPTER_OXYGEN_PAIRS == (int)SS_LINK_SETUP_OXYGEN_PAIRS);
SS_CHECK(ratio, (int)SS_ADAPTER_OXYGEN_RATIO == (int)SS_LINK_SETUP_OXYGEN_RATIO);
SS_CHECK(percent, (int)SS_ADAPTER_OXYGEN_PERCENT == (int)SS_LINK_SETUP_OXYGEN_MILLI_PERCENT);
SS_CHECK(pressure, (int)SS_ADAPTER_PRESSURE == (int)SS_LINK_SETUP_PRESSURE_POINTS && (int)SS_ADAPTER_PRESSURE + 1 == (int)SS_LINK_SETUP_PRESSURE_MODEL
    && (int)SS_ADAPTER_PRESSURE + 8 == (int)SS_LINK_SETUP_PRESSURE_REACH_MILLI);
SS_CHECK(cuff, (int)SS_ADAPTER_CUFF == (int)SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI && (int)SS_ADAPTER_CUFF + 5 == (int)SS_LINK_SETUP_CUFF_TIME_S);
SS_CHECK(trend, (int)SS_ADAPTER_TREND == (int)SS_LINK_SETUP_TREND_ALLOWANCE256 && (int)SS_ADAPTER_TREND + 7 == (int)SS_LINK_SETUP_TREND_REST_MARGIN_BPM);
