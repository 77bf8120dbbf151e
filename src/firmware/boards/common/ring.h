/* SPDX-License-Identifier: MIT */
/*
 * A ring of bytes between one interrupt and the main loop. One side only writes, the other only reads: each index has one owner,
 * so no lock is needed on a core that loads and stores 32 bits in one go. Holds one byte less than its size.
 */
#ifndef SS_RING_H
#define SS_RING_H

#include <stdint.h>

typedef struct {
    uint8_t *bytes;
    uint32_t size;
    volatile uint32_t head; /* next place to write */
    volatile uint32_t tail; /* next place to read */
    volatile uint32_t lost; /* bytes that found it full */
} ss_ring;

static inline uint32_t ss_ring_after(const ss_ring *ring, uint32_t place) {
    return place + 1u == ring->size ? 0u : place + 1u;
}

static inline int ss_ring_is_empty(const ss_ring *ring) {
    return ring->head == ring->tail;
}

/* Puts a byte in; returns whether there was room. */
static inline int ss_ring_put(ss_ring *ring, uint8_t byte) {
    const uint32_t head = ring->head;
    const uint32_t next = ss_ring_after(ring, head);
    if (next == ring->tail) {
        ring->lost++;
        return 0;
    }
    ring->bytes[head] = byte;
    ring->head = next;
    return 1;
}

/* Takes a byte out; returns whether there was one. */
static inline int ss_ring_get(ss_ring *ring, uint8_t *byte) {
    const uint32_t tail = ring->tail;
    if (ring->head == tail) {
        return 0;
    }
    *byte = ring->bytes[tail];
    ring->tail = ss_ring_after(ring, tail);
    return 1;
}

/* Whether one more byte fits. */
static inline int ss_ring_has_room(const ss_ring *ring) {
    return ss_ring_after(ring, ring->head) != ring->tail;
}

#endif
