/* SPDX-License-Identifier: MIT */
/* From reset to main: copies the initial values, clears the rest, paints the stack so that its deepest use can be seen later. */
#include <stdint.h>

#include "stack_mark.h"

extern uint32_t ss_data_from[];
extern uint32_t ss_data_begin[];
extern uint32_t ss_data_end[];
extern uint32_t ss_bss_begin[];
extern uint32_t ss_bss_end[];
extern uint32_t ss_stack_bottom[];
extern uint32_t ss_stack_top[];

int main(void);
void ss_reset(void);
void ss_fault(void);
void ss_no_interrupt(void);

/* A board's driver file defines the ones it uses; all others end in ss_no_interrupt. */
#define UNUSED_UNLESS_DEFINED __attribute__((weak, alias("ss_no_interrupt")))
void ss_interrupt_0(void) UNUSED_UNLESS_DEFINED;
void ss_interrupt_1(void) UNUSED_UNLESS_DEFINED;
void ss_interrupt_2(void) UNUSED_UNLESS_DEFINED;
void ss_interrupt_8(void) UNUSED_UNLESS_DEFINED;
void ss_interrupt_9(void) UNUSED_UNLESS_DEFINED;

typedef void (*handler)(void);

/* The first word is the stack pointer, the others are addresses of code; both are one word wide on these cores. */
typedef union {
    uint32_t *stack;
    handler code;
} vector;

__attribute__((section(".vectors"), used)) static const vector vectors[48] = {
    {.stack = ss_stack_top},
    {.code = ss_reset},
    {.code = ss_fault},  /* not maskable */
    {.code = ss_fault},  /* hard fault */
    {.code = ss_fault},
    {.code = ss_fault},
    {.code = ss_fault},
    {0},
    {0},
    {0},
    {0},
    {.code = ss_fault},
    {.code = ss_fault},
    {0},
    {.code = ss_fault},
    {.code = ss_fault},
    {.code = ss_interrupt_0},
    {.code = ss_interrupt_1},
    {.code = ss_interrupt_2},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_interrupt_8},
    {.code = ss_interrupt_9},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
    {.code = ss_no_interrupt},
};

void ss_reset(void) {
    const uint32_t *from = ss_data_from;
    for (uint32_t *to = ss_data_begin; to < ss_data_end; to++) {
        *to = *from++;
    }
    for (uint32_t *to = ss_bss_begin; to < ss_bss_end; to++) {
        *to = 0;
    }
    /* Up to this function's own frame, with room for what the compiler may push in the loop. */
    uint32_t *here = (uint32_t *)__builtin_frame_address(0) - 16;
    for (uint32_t *to = ss_stack_bottom; to < here; to++) {
        *to = SS_STACK_PAINT;
    }
    (void)main();
    for (;;) {
    }
}

/* A fault must not look like a quiet board: it stays here, where a debugger finds it, and the host sees a link that answers no more. */
void ss_fault(void) {
    for (;;) {
    }
}

void ss_no_interrupt(void) {
    for (;;) {
    }
}

uint32_t ss_stack_bytes(void) {
    return (uint32_t)((ss_stack_top - ss_stack_bottom) * 4);
}

uint32_t ss_stack_used(void) {
    const uint32_t *at = ss_stack_bottom;
    while (at < ss_stack_top && *at == SS_STACK_PAINT) {
        at++;
    }
    return (uint32_t)((ss_stack_top - at) * 4);
}
