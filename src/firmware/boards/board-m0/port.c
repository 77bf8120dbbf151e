/* SPDX-License-Identifier: MIT */
/*
 * Serial port and timer of an nRF51 (Nordic, nRF51 Series Reference Manual): UART with six bytes of receive FIFO, TIMER0 with 16 MHz and 32 bits
 * that counts free and wakes the main loop every 10 ms by its compare register 1.
 */
#include "board.h"
#include "ring.h"

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define UART_START_RECEIVE REGISTER(0x40002000u)
#define UART_START_SEND REGISTER(0x40002008u)
#define UART_RECEIVED REGISTER(0x40002108u)
#define UART_SENT REGISTER(0x4000211Cu)
#define UART_INTERRUPTS REGISTER(0x40002304u)
#define UART_ENABLE REGISTER(0x40002500u)
#define UART_PIN_SEND REGISTER(0x4000250Cu)
#define UART_PIN_RECEIVE REGISTER(0x40002514u)
#define UART_IN REGISTER(0x40002518u)
#define UART_OUT REGISTER(0x4000251Cu)
#define UART_BAUD REGISTER(0x40002524u)
#define TIMER_START REGISTER(0x40008000u)
#define TIMER_CAPTURE_0 REGISTER(0x40008040u)
#define TIMER_CAPTURE_2 REGISTER(0x40008048u)
#define TIMER_COMPARED_1 REGISTER(0x40008144u)
#define TIMER_INTERRUPTS REGISTER(0x40008304u)
#define TIMER_BITS REGISTER(0x40008508u)
#define TIMER_PRESCALER REGISTER(0x40008510u)
#define TIMER_VALUE_0 REGISTER(0x40008540u)
#define TIMER_VALUE_1 REGISTER(0x40008544u)
#define TIMER_VALUE_2 REGISTER(0x40008548u)
#define INTERRUPTS_ON REGISTER(0xE000E100u)

#define TICKS_PER_US 16u
#define WAKE_TICKS (10000u * TICKS_PER_US)
#define BAUD_115200 0x01D7E000u

enum { RECEIVE_BYTES = 576, SEND_BYTES = 128 };

static uint8_t receive_bytes[RECEIVE_BYTES];
static uint8_t send_bytes[SEND_BYTES];
static ss_ring received = {receive_bytes, RECEIVE_BYTES, 0, 0, 0};
static ss_ring sending = {send_bytes, SEND_BYTES, 0, 0, 0};
static volatile uint32_t is_sending;
static uint32_t clock_last;
static uint32_t clock_rest;
static uint32_t clock_us;

void ss_interrupt_2(void);
void ss_interrupt_8(void);

void ss_port_begin(void) {
    TIMER_BITS = 3u;
    TIMER_PRESCALER = 0u;
    TIMER_VALUE_1 = WAKE_TICKS;
    TIMER_INTERRUPTS = 1u << 17;
    TIMER_START = 1u;
    UART_PIN_SEND = 24u;
    UART_PIN_RECEIVE = 25u;
    UART_BAUD = BAUD_115200;
    UART_ENABLE = 4u;
    UART_INTERRUPTS = (1u << 2) | (1u << 7);
    UART_START_RECEIVE = 1u;
    UART_START_SEND = 1u;
    INTERRUPTS_ON = (1u << 2) | (1u << 8);
    __asm volatile("cpsie i" ::: "memory");
}

static void send_next(void) {
    uint8_t byte;
    if (ss_ring_get(&sending, &byte)) {
        UART_OUT = byte;
    } else {
        is_sending = 0u;
    }
}

/* Serial port. An event is cleared before its byte is taken: the other way round, a byte that comes in between is never told. */
void ss_interrupt_2(void) {
    while (UART_RECEIVED != 0u) {
        UART_RECEIVED = 0u;
        (void)ss_ring_put(&received, (uint8_t)UART_IN);
    }
    if (UART_SENT != 0u) {
        UART_SENT = 0u;
        send_next();
    }
}

void ss_interrupt_8(void) {
    TIMER_COMPARED_1 = 0u;
    /* From now, not from the last time: when this comes late, that may be over already, and the next match is a whole turn of the timer away. */
    TIMER_CAPTURE_2 = 1u;
    TIMER_VALUE_1 = TIMER_VALUE_2 + WAKE_TICKS;
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
        send_next();
    }
    __asm volatile("cpsie i" ::: "memory");
    return taken;
}

uint32_t ss_port_timer(void) {
    TIMER_CAPTURE_0 = 1u;
    return TIMER_VALUE_0;
}

/* Called from the main loop at least every 100 ms, so no turn of the timer (268 s) is missed. */
uint32_t ss_port_clock_us(void) {
    const uint32_t now = ss_port_timer();
    const uint32_t ticks = now - clock_last + clock_rest;
    clock_last = now;
    clock_us += ticks / TICKS_PER_US;
    clock_rest = ticks % TICKS_PER_US;
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
