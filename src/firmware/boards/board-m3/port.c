/* SPDX-License-Identifier: MIT */
/*
 * Serial port and timers of an Arm CMSDK system (Cortex-M System Design Kit, Arm DDI 0479): UART 0 with a register of one byte, a timer that
 * counts free, and a second one that wakes the main loop every 10 ms. The system clock has 25 MHz.
 */
#include "board.h"
#include "ring.h"

#define CLOCK_HZ 25000000u
#define BAUD 115200u

typedef struct {
    volatile uint32_t data;
    volatile uint32_t state;  /* bit 0: transmit register full, 1: receive register full, 3: receive overrun */
    volatile uint32_t control; /* bits 0, 1: transmit and receive on; 2, 3: their interrupts */
    volatile uint32_t interrupt; /* bits 0, 1: transmit and receive; write 1 to clear */
    volatile uint32_t divider;
} uart;

typedef struct {
    volatile uint32_t control; /* bit 0: on, bit 3: interrupt */
    volatile uint32_t value;
    volatile uint32_t reload;
    volatile uint32_t interrupt; /* write 1 to clear */
} timer;

#define UART0 ((uart *)0x40004000u)
#define TIMER0 ((timer *)0x40000000u)
#define TIMER1 ((timer *)0x40001000u)
#define INTERRUPTS_ON ((volatile uint32_t *)0xE000E100u)

enum { RECEIVE_BYTES = 2048, SEND_BYTES = 1024 };

static uint8_t receive_bytes[RECEIVE_BYTES];
static uint8_t send_bytes[SEND_BYTES];
static ss_ring received = {receive_bytes, RECEIVE_BYTES, 0, 0, 0};
static ss_ring sending = {send_bytes, SEND_BYTES, 0, 0, 0};
static volatile uint32_t is_sending;
static uint32_t clock_last;
static uint32_t clock_rest;
static uint32_t clock_us;

void ss_interrupt_0(void);
void ss_interrupt_1(void);
void ss_interrupt_9(void);

void ss_port_begin(void) {
    TIMER0->reload = 0xFFFFFFFFu;
    TIMER0->value = 0xFFFFFFFFu;
    TIMER0->control = 1u;
    TIMER1->reload = CLOCK_HZ / 100u;
    TIMER1->value = CLOCK_HZ / 100u;
    TIMER1->control = 9u;
    UART0->divider = CLOCK_HZ / BAUD;
    UART0->control = 0xFu;
    INTERRUPTS_ON[0] = (1u << 0) | (1u << 1) | (1u << 9);
    __asm volatile("cpsie i" ::: "memory");
}

/* Receive. The interrupt is acknowledged before the register is emptied: the other way round, a byte that comes in between is never told. */
void ss_interrupt_0(void) {
    UART0->interrupt = 2u;
    while ((UART0->state & 2u) != 0u) {
        (void)ss_ring_put(&received, (uint8_t)UART0->data);
    }
}

static void send_what_fits(void) {
    uint8_t byte;
    while ((UART0->state & 1u) == 0u) {
        if (!ss_ring_get(&sending, &byte)) {
            is_sending = 0u;
            return;
        }
        UART0->data = byte;
    }
}

/* The transmit register is free again. */
void ss_interrupt_1(void) {
    UART0->interrupt = 1u;
    send_what_fits();
}

void ss_interrupt_9(void) {
    TIMER1->interrupt = 1u;
}

size_t ss_port_read(uint8_t *bytes, size_t most) {
    size_t count = 0;
    while (count < most && ss_ring_get(&received, &bytes[count])) {
        count++;
    }
    return count;
}

size_t ss_port_write(const uint8_t *bytes, size_t count) {
    size_t taken = 0;
    while (taken < count && ss_ring_has_room(&sending)) {
        (void)ss_ring_put(&sending, bytes[taken]);
        taken++;
    }
    /* The interrupt tells only that a byte has left, so the first one is started here; with interrupts off, as both take from the ring. */
    __asm volatile("cpsid i" ::: "memory");
    if (is_sending == 0u && !ss_ring_is_empty(&sending)) {
        is_sending = 1u;
        send_what_fits();
    }
    __asm volatile("cpsie i" ::: "memory");
    return taken;
}

uint32_t ss_port_timer(void) {
    return 0xFFFFFFFFu - TIMER0->value;
}

/* Called from the main loop at least every 100 ms, so no turn of the timer (171 s) is missed. */
uint32_t ss_port_clock_us(void) {
    const uint32_t now = ss_port_timer();
    const uint32_t ticks = now - clock_last + clock_rest;
    clock_last = now;
    clock_us += ticks / (CLOCK_HZ / 1000000u);
    clock_rest = ticks % (CLOCK_HZ / 1000000u);
    return clock_us;
}

void ss_port_sleep(void) {
    /* With interrupts masked, one that comes between the look and the sleep still ends the sleep. */
    __asm volatile("cpsid i" ::: "memory");
    if (ss_ring_is_empty(&received)) {
        __asm volatile("wfi" ::: "memory");
    }
    __asm volatile("cpsie i" ::: "memory");
}

uint32_t ss_port_room(void) {
    return RECEIVE_BYTES - 1u;
}

uint32_t ss_port_lost(void) {
    return received.lost;
}
