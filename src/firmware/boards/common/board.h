/* SPDX-License-Identifier: MIT */
/*
 * What a board's driver file (port.c) gives to the common main loop. A real board writes these functions and no more;
 * docs/porting.md says what each must do.
 */
#ifndef SS_BOARD_H
#define SS_BOARD_H

#include <stddef.h>
#include <stdint.h>

/* Serial port, clock and interrupts are set up; called once. */
void ss_port_begin(void);

/* Takes received bytes out of the ring that the interrupt fills. Returns how many; 0: there are none. Never waits. */
size_t ss_port_read(uint8_t *bytes, size_t most);

/* Gives bytes to be sent. Returns how many it took, 0 when its ring is full. Never waits. */
size_t ss_port_write(const uint8_t *bytes, size_t count);

/* Microseconds since the board began; wraps. */
uint32_t ss_port_clock_us(void);

/* Ticks of the finest timer there is, counting up; wraps at 32 bits. For the count of ticks in a stage. */
uint32_t ss_port_timer(void);

/* Sleeps until something has happened: a byte came or went, or 10 ms are over. Returns at once when bytes wait already. */
void ss_port_sleep(void);

/* Bytes that can wait to be read: the credit comes from it. */
uint32_t ss_port_room(void);

/* Bytes that came while there was no room. */
uint32_t ss_port_lost(void);

#endif
