/* SPDX-License-Identifier: MIT */
/* Numbers in payloads, low byte first; for the sources of the codec only. */
#ifndef SENSORSIM_LINK_BYTES_H
#define SENSORSIM_LINK_BYTES_H

#include "sensorsim_link.h"

static inline uint16_t ss_get16(const uint8_t *p) { return (uint16_t)(p[0] | (uint16_t)(p[1] << 8)); }

static inline uint32_t ss_get32(const uint8_t *p) { return (uint32_t)ss_get16(p) | ((uint32_t)ss_get16(p + 2) << 16); }

static inline int32_t ss_get_s32(const uint8_t *p) { return (int32_t)ss_get32(p); }

static inline int64_t ss_get_s64(const uint8_t *p) { return (int64_t)(((uint64_t)ss_get32(p + 4) << 32) | ss_get32(p)); }

static inline void ss_put16(uint8_t *p, uint32_t v) {
    p[0] = (uint8_t)v;
    p[1] = (uint8_t)(v >> 8);
}

static inline void ss_put32(uint8_t *p, uint32_t v) {
    ss_put16(p, v & 0xFFFFu);
    ss_put16(p + 2, v >> 16);
}

static inline void ss_put_s64(uint8_t *p, int64_t v) {
    ss_put32(p, (uint32_t)(uint64_t)v);
    ss_put32(p + 4, (uint32_t)((uint64_t)v >> 32));
}

static inline int ss_is_tick(int64_t tick) { return tick >= 0 && tick <= SS_LINK_MAX_TICK; }

#endif
