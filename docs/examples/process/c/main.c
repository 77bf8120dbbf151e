/* SPDX-License-Identifier: MIT */
/*
 * A program that plays a board: the session of src/firmware over standard input and output, around one detector. POSIX.
 * It ends when its input does.
 */
#include <poll.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

#include "board_session.h"
#include "detector.h"

static int input_has_ended;

static size_t read_input(void *context, uint8_t *bytes, size_t most) {
    (void)context;
    struct pollfd input = {STDIN_FILENO, POLLIN, 0};
    if (input_has_ended || poll(&input, 1, 0) <= 0) {
        return 0;
    }
    const ssize_t count = read(STDIN_FILENO, bytes, most);
    if (count <= 0) {
        input_has_ended = 1;
        return 0;
    }
    return (size_t)count;
}

/* Waits here when the host does not read: then it does not send either, beyond its credit. */
static size_t write_output(void *context, const uint8_t *bytes, size_t count) {
    (void)context;
    const ssize_t written = write(STDOUT_FILENO, bytes, count);
    if (written < 0) {
        input_has_ended = 1;
        return count;
    }
    return (size_t)written;
}

static uint32_t clock_us(void *context) {
    (void)context;
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (uint32_t)((uint64_t)now.tv_sec * 1000000u + (uint64_t)now.tv_nsec / 1000u);
}

int main(void) {
    static const ss_board_port port = {NULL, read_input, write_output, clock_us, NULL, NULL, 4096};
    static ss_board board;
    ss_board_begin(&board, &port, SS_DETECTOR, SS_DETECTOR_CONTEXT, NULL);
    for (;;) {
        if (!ss_board_step(&board)) {
            if (input_has_ended) {
                return 0;
            }
            struct pollfd input = {STDIN_FILENO, POLLIN, 0};
            (void)poll(&input, 1, -1);
        }
    }
}
