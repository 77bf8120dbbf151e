/* SPDX-License-Identifier: MIT */
/* A board: the session, the detector, and sleep when there is nothing to do. */
#include "board.h"
#include "board_session.h"
#include "detector.h"
#include "sampler.h"
#include "stack_mark.h"

static ss_board board;

static size_t read_bytes(void *context, uint8_t *bytes, size_t most) {
    (void)context;
    return ss_port_read(bytes, most);
}

static size_t write_bytes(void *context, const uint8_t *bytes, size_t count) {
    (void)context;
    return ss_port_write(bytes, count);
}

static uint32_t clock_us(void *context) {
    (void)context;
    return ss_port_clock_us();
}

static uint32_t timer(void *context) {
    (void)context;
    return ss_port_timer();
}

static void memory(void *context, uint32_t *stack_bytes, uint32_t *stack_used, uint32_t *bytes_lost) {
    (void)context;
    *stack_bytes = ss_stack_bytes();
    *stack_used = ss_stack_used();
    *bytes_lost = ss_port_lost();
}

int main(void) {
    static ss_board_port port = {NULL, read_bytes, write_bytes, clock_us, timer, memory, 0};
    ss_port_begin();
    port.room_bytes = ss_port_room();
    ss_board_begin(&board, &port, SS_DETECTOR, SS_DETECTOR_CONTEXT, &ss_sampler_source);
    for (;;) {
        if (!ss_board_step(&board)) {
            ss_port_sleep();
        }
    }
}
