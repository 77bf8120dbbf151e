/* Generated from SensorSim.Detection/Movement/MovementWords.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_MOVEMENT_MOVEMENT_WORDS_H
#define SS_MOVEMENT_MOVEMENT_WORDS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Words held. */
#define SS_WORD12_LENGTH 12

/* Words held. */
#define SS_WORD4_LENGTH 4

/* Words held. */
#define SS_POWER4_LENGTH 4

/* Halves held. */
#define SS_HALF64_LENGTH 64

/* Halves held. */
#define SS_HALF80_LENGTH 80

/* Bytes held. */
#define SS_BYTE80_LENGTH 80

/* Halves held. */
#define SS_HALF104_LENGTH 104

/* Twelve words in place: three axes times the four functions of the reference. */
struct ss_word12 {
    int32_t at[12];
};

/* Four words in place. */
struct ss_word4 {
    int32_t at[4];
};

/* Four words of 64 bits in place. */
struct ss_power4 {
    int64_t at[4];
};

/* Sixty-four halves of a word in place. */
struct ss_half64 {
    int16_t at[64];
};

/* Eighty halves of a word in place. */
struct ss_half80 {
    int16_t at[80];
};

/* Eighty bytes in place. */
struct ss_byte80 {
    uint8_t at[80];
};

/* One hundred and four halves of a word in place. */
struct ss_half104 {
    int16_t at[104];
};

#endif
