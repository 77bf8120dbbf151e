/* SPDX-License-Identifier: MIT */
/*
 * Prints and ends by semihosting: Arm, "Semihosting for AArch32 and AArch64", 2024Q3: on the M profile the call is BKPT 0xAB, its number in r0, its
 * argument in r1. SYS_WRITE0 (0x04) prints text up to its zero; SYS_EXIT_EXTENDED (0x20) ends with a reason and a code. Numbers are from memory;
 * the emulator answers to them. A call costs much more than what it carries, so that text is gathered first.
 */
#include <stdint.h>

#include "vector_out.h"

enum { SYS_WRITE0 = 0x04, SYS_EXIT_EXTENDED = 0x20, GATHERED = 512 };

static char gathered[GATHERED + 1];
static uint32_t count;

static void call(uint32_t number, const void *argument)
{
    register uint32_t r0 __asm("r0") = number;
    register const void *r1 __asm("r1") = argument;
    __asm volatile("bkpt 0xab" : "+r"(r0) : "r"(r1) : "memory");
}

static void give(void)
{
    gathered[count] = '\0';
    call(SYS_WRITE0, gathered);
    count = 0;
}

void vector_out(const char *text)
{
    while (*text != '\0') {
        gathered[count++] = *text++;
        if (count == GATHERED) {
            give();
        }
    }
}

int vector_end(const char *fault)
{
    /* ADP_Stopped_ApplicationExit */
    const uint32_t reason[2] = { 0x20026u, fault != 0 ? 1u : 0u };
    vector_out(fault != 0 ? fault : "");
    give();
    call(SYS_EXIT_EXTENDED, reason);
    return 1;
}
