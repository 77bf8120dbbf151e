/* SPDX-License-Identifier: MIT */
/*
 * What the generated library stands on: fixed-width integers, memset, and helpers for the few operations whose meaning C leaves open while the
 * C# that the library comes from fixes it. Written by hand. Needs a compiler for C99 and, of the C library, memset and memcpy only.
 */
#ifndef SENSORSIM_RUNTIME_H
#define SENSORSIM_RUNTIME_H

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* A line that compiles only when the condition holds. */
#define SS_CHECK(name, condition) typedef char ss_check_##name[(condition) ? 1 : -1]

/* What the library takes for granted. An int of 32 bits: then narrower words become an int in C exactly where they do in C#. */
SS_CHECK(int_has_32_bits, sizeof(int) == 4);

/* Words of a sign as two's complement, and a cast to a narrower one keeps its low bits: C leaves that to the compiler; GCC, Clang and every compiler
 * for ARM document it. */
SS_CHECK(casts_keep_low_bits, (int8_t)0x1FF == -1 && (int16_t)0x1FFFF == -1 && (int32_t)UINT32_C(0xFFFFFFFF) == -1);

/* Shifts to the right of negative words. Where the compiler is known to fill with the sign, it is one instruction. SS_PLAIN_C asks for what every
 * compiler does the same way. */
#if !defined(SS_PLAIN_C) && (defined(__GNUC__) || defined(__clang__) || defined(__ICCARM__) || defined(__ARMCC_VERSION))
#define SS_RIGHT_FILLS_WITH_SIGN 1
#else
#define SS_RIGHT_FILLS_WITH_SIGN 0
#endif

/* C# takes the count of a shift modulo the width of the word. */

static inline int32_t ss_shift_left32(int32_t value, int32_t count)
{
    return (int32_t)((uint32_t)value << ((uint32_t)count & 31u));
}

static inline int64_t ss_shift_left64(int64_t value, int32_t count)
{
    return (int64_t)((uint64_t)value << ((uint32_t)count & 63u));
}

static inline uint32_t ss_shift_leftu32(uint32_t value, int32_t count)
{
    return value << ((uint32_t)count & 31u);
}

static inline uint64_t ss_shift_leftu64(uint64_t value, int32_t count)
{
    return value << ((uint32_t)count & 63u);
}

static inline int32_t ss_shift_right32(int32_t value, int32_t count)
{
    uint32_t by = (uint32_t)count & 31u;
#if SS_RIGHT_FILLS_WITH_SIGN
    return value >> by;
#else
    return value >= 0 ? (int32_t)((uint32_t)value >> by) : (int32_t)~(~(uint32_t)value >> by);
#endif
}

static inline int64_t ss_shift_right64(int64_t value, int32_t count)
{
    uint32_t by = (uint32_t)count & 63u;
#if SS_RIGHT_FILLS_WITH_SIGN
    return value >> by;
#else
    return value >= 0 ? (int64_t)((uint64_t)value >> by) : (int64_t)~(~(uint64_t)value >> by);
#endif
}

static inline uint32_t ss_shift_rightu32(uint32_t value, int32_t count)
{
    return value >> ((uint32_t)count & 31u);
}

static inline uint64_t ss_shift_rightu64(uint64_t value, int32_t count)
{
    return value >> ((uint32_t)count & 63u);
}

/* Shifts to the right that fill with zeros. */

static inline int32_t ss_shift_right_zero32(int32_t value, int32_t count)
{
    return (int32_t)((uint32_t)value >> ((uint32_t)count & 31u));
}

static inline int64_t ss_shift_right_zero64(int64_t value, int32_t count)
{
    return (int64_t)((uint64_t)value >> ((uint32_t)count & 63u));
}

/* Sums and products that may leave the word and come back at its other end. */

static inline int32_t ss_wrap_add32(int32_t a, int32_t b)
{
    return (int32_t)((uint32_t)a + (uint32_t)b);
}

static inline int32_t ss_wrap_sub32(int32_t a, int32_t b)
{
    return (int32_t)((uint32_t)a - (uint32_t)b);
}

static inline int32_t ss_wrap_mul32(int32_t a, int32_t b)
{
    return (int32_t)((uint32_t)a * (uint32_t)b);
}

static inline int32_t ss_wrap_neg32(int32_t value)
{
    return (int32_t)(0u - (uint32_t)value);
}

static inline int64_t ss_wrap_add64(int64_t a, int64_t b)
{
    return (int64_t)((uint64_t)a + (uint64_t)b);
}

static inline int64_t ss_wrap_sub64(int64_t a, int64_t b)
{
    return (int64_t)((uint64_t)a - (uint64_t)b);
}

static inline int64_t ss_wrap_mul64(int64_t a, int64_t b)
{
    return (int64_t)((uint64_t)a * (uint64_t)b);
}

static inline int64_t ss_wrap_neg64(int64_t value)
{
    return (int64_t)(UINT64_C(0) - (uint64_t)value);
}

/* Zeros above the highest one; of 0 all of them. */
static inline int32_t ss_leading_zeros32(uint32_t value)
{
#if defined(__GNUC__) && !defined(SS_PLAIN_C)
    return value == 0u ? 32 : (int32_t)__builtin_clz((unsigned int)value);
#else
    int32_t zeros = 32;
    while (value != 0u) {
        value >>= 1;
        zeros--;
    }
    return zeros;
#endif
}

static inline int32_t ss_leading_zeros64(uint64_t value)
{
    uint32_t high = (uint32_t)(value >> 32);
    return high != 0u ? ss_leading_zeros32(high) : 32 + ss_leading_zeros32((uint32_t)value);
}

/* How many ones a word has. */
static inline int32_t ss_ones32(uint32_t value)
{
    value -= (value >> 1) & UINT32_C(0x55555555);
    value = (value & UINT32_C(0x33333333)) + ((value >> 2) & UINT32_C(0x33333333));
    value = (value + (value >> 4)) & UINT32_C(0x0F0F0F0F);
    value += value >> 8;
    value += value >> 16;
    return (int32_t)(value & 63u);
}

#endif
