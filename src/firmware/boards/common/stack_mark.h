/* SPDX-License-Identifier: MIT */
#ifndef SS_STACK_MARK_H
#define SS_STACK_MARK_H

#include <stdint.h>

/* What unused stack is filled with at reset. */
#define SS_STACK_PAINT 0xA5C3965Au

/* Bytes of stack that there are: all memory that nothing else uses. */
uint32_t ss_stack_bytes(void);

/* Bytes of it that have been used at most since reset. Takes one look at each word that was never used. */
uint32_t ss_stack_used(void);

#endif
