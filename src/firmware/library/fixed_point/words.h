/* Generated from SensorSim.FixedPoint/Words.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_FIXED_POINT_WORDS_H
#define SS_FIXED_POINT_WORDS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Words held. */
#define SS_WORD8_LENGTH 8

/* Words held. */
#define SS_WORD16_LENGTH 16

/* Words held. */
#define SS_WORD64_LENGTH 64

/* Words held. */
#define SS_WORD256_LENGTH 256

/* Words held. */
#define SS_WORD512_LENGTH 512

/* Eight words in place. */
struct ss_word8 {
    int32_t at[8];
};

/* Sixteen words in place. */
struct ss_word16 {
    int32_t at[16];
};

/* Sixty-four words in place. */
struct ss_word64 {
    int32_t at[64];
};

/* Two hundred and fifty-six words in place. */
struct ss_word256 {
    int32_t at[256];
};

/* Five hundred and twelve words in place. */
struct ss_word512 {
    int32_t at[512];
};

#endif
