/* SPDX-License-Identifier: MIT */
/*
 * memcpy, memset, memmove and memcmp for boards that link no C library; word by word where both ends lie on words.
 * The compiler calls the first two by itself for large structs.
 */
#include <stddef.h>
#include <stdint.h>

void *memcpy(void *restrict to, const void *restrict from, size_t count);
void *memset(void *to, int value, size_t count);
void *memmove(void *to, const void *from, size_t count);
int memcmp(const void *one, const void *other, size_t count);

static int are_words(const void *one, const void *other) {
    return (((uintptr_t)one | (uintptr_t)other) & 3u) == 0u;
}

void *memcpy(void *restrict to, const void *restrict from, size_t count) {
    uint8_t *put = to;
    const uint8_t *get = from;
    if (are_words(to, from)) {
        uint32_t *words = (uint32_t *)(void *)put;
        const uint32_t *source = (const uint32_t *)(const void *)get;
        for (; count >= 16u; count -= 16u) {
            words[0] = source[0];
            words[1] = source[1];
            words[2] = source[2];
            words[3] = source[3];
            words += 4;
            source += 4;
        }
        for (; count >= 4u; count -= 4u) {
            *words++ = *source++;
        }
        put = (uint8_t *)words;
        get = (const uint8_t *)source;
    }
    for (; count > 0u; count--) {
        *put++ = *get++;
    }
    return to;
}

void *memset(void *to, int value, size_t count) {
    uint8_t *put = to;
    const uint8_t byte = (uint8_t)value;
    if (((uintptr_t)put & 3u) == 0u) {
        uint32_t *words = (uint32_t *)(void *)put;
        const uint32_t word = byte * 0x01010101u;
        for (; count >= 4u; count -= 4u) {
            *words++ = word;
        }
        put = (uint8_t *)words;
    }
    for (; count > 0u; count--) {
        *put++ = byte;
    }
    return to;
}

void *memmove(void *to, const void *from, size_t count) {
    uint8_t *put = to;
    const uint8_t *get = from;
    if ((uintptr_t)put <= (uintptr_t)get) {
        for (; count > 0u; count--) {
            *put++ = *get++;
        }
    } else {
        while (count > 0u) {
            count--;
            put[count] = get[count];
        }
    }
    return to;
}

int memcmp(const void *one, const void *other, size_t count) {
    const uint8_t *a = one;
    const uint8_t *b = other;
    for (; count > 0u; count--) {
        if (*a != *b) {
            return *a < *b ? -1 : 1;
        }
        a++;
        b++;
    }
    return 0;
}
