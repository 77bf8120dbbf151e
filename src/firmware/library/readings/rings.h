/* Generated from SensorSim.Detection/Readings/Rings.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_READINGS_RINGS_H
#define SS_READINGS_RINGS_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

/* Places held. */
#define SS_LONG4_LENGTH 4

/* Bytes held. */
#define SS_BYTE4_LENGTH 4

/* Bytes held. */
#define SS_BYTE8_LENGTH 8

/* Words held. */
#define SS_READINGS_HALF8_LENGTH 8

/* Words held. */
#define SS_HALF16_LENGTH 16

/* Words held. */
#define SS_HALF32_LENGTH 32

/* Words held. */
#define SS_HALF48_LENGTH 48

/* Bytes held. */
#define SS_SIGNED64_LENGTH 64

/* Words held. */
#define SS_MASK32_LENGTH 32

/* Four places in time, held in place. */
struct ss_long4 {
    int64_t at[4];
};

/* Four bytes in place. */
struct ss_byte4 {
    uint8_t at[4];
};

/* Eight bytes in place. */
struct ss_byte8 {
    uint8_t at[8];
};

/* Eight words of 16 bits in place. */
struct ss_readings_half8 {
    uint16_t at[8];
};

/* Sixteen words of 16 bits in place. */
struct ss_half16 {
    uint16_t at[16];
};

/* Thirty-two words of 16 bits in place. */
struct ss_half32 {
    uint16_t at[32];
};

/* Forty-eight words of 16 bits in place. */
struct ss_half48 {
    uint16_t at[48];
};

/* Sixty-four signed bytes in place. */
struct ss_signed64 {
    int8_t at[64];
};

/* Thirty-two words of 32 bits in place. */
struct ss_mask32 {
    uint32_t at[32];
};

#endif
