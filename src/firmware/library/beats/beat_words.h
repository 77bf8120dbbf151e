/* Generated from SensorSim.Detection/Beats/BeatWords.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_BEATS_BEAT_WORDS_H
#define SS_BEATS_BEAT_WORDS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Words held. */
#define SS_WORD32_LENGTH 32

/* Words held. */
#define SS_WIDE4_LENGTH 4

/* Words held. */
#define SS_SLOPES16_LENGTH 16

/* Thirty-two words in place. */
struct ss_word32 {
    int32_t at[32];
};

/* Four wide words in place. */
struct ss_wide4 {
    int64_t at[4];
};

/* Sixteen short words in place. */
struct ss_slopes16 {
    int16_t at[16];
};

#endif
