/* SPDX-License-Identifier: MIT */
/*
 * Checks of the library as a board's detector (src/firmware/session/library_*.c): that it begins anywhere in a long stream at once and says
 * the same there as at the begin, and that it takes the values of docs/link-protocol.md and no others.
 *   library_check PAGE
 * Prints one line; any difference ends it with code 1.
 */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "library_board.h"

#define EXPECT(condition)                                                                  \
    do {                                                                                   \
        if (!(condition)) {                                                                \
            fprintf(stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, #condition);        \
            exit(1);                                                                       \
        }                                                                                  \
    } while (0)

/* ECG of 250 Hz and infrared of 100 Hz: 500 ticks a second, in pieces of 40 ms. */
enum { TICKS = 500, ECG_HZ = 250, LIGHT_HZ = 100, PIECE = 20, SECONDS = 40, MOST_MARKS = 4000 };

static ss_library_board board;
static const ss_board_detector *const library = &ss_library_detector;

static void set_channel(ss_link_format *format, uint8_t at, uint8_t name, uint32_t rate_hz, int64_t delay256) {
    ss_link_channel channel;
    memset(&channel, 0, sizeof channel);
    channel.name = name;
    channel.bits = 20;
    channel.is_signed = 1;
    channel.rate_hz = rate_hz;
    channel.ticks_per_sample = TICKS / rate_hz;
    channel.codes_per_unit256 = 256 * 1000;
    channel.delay256 = delay256;
    ss_link_set_channel(format, at, &channel);
}

static ss_link_format make_format(void) {
    ss_link_format format;
    memset(&format, 0, sizeof format);
    format.ticks_per_second = TICKS;
    format.channel_count = 2;
    set_channel(&format, 0, 0, ECG_HZ, 0);
    set_channel(&format, 1, 2, LIGHT_HZ, 128);
    return format;
}

/* A peak of 100 ms each 800 ms; and a pulse: light that falls within 160 ms and comes back slowly. Both by place since the session's whole second. */
static int32_t ecg_code(int64_t k) {
    const int64_t at = k % (ECG_HZ * 8 / 10);
    const int64_t away = at < 13 ? 13 - at : at - 13;
    return (int32_t)((away < 12 ? (12 - away) * 90 : 0) + ((k * 7919) % 13));
}

static int32_t light_code(int64_t k) {
    const int64_t at = (k + 60) % (LIGHT_HZ * 8 / 10);
    return (int32_t)(20000 - (at < 16 ? at * 25 : (80 - at) * 400 / 64) - ((k * 104729) % 5));
}

typedef struct {
    ss_link_mark marks[MOST_MARKS];
    unsigned count;
    unsigned most_takes; /* calls for one piece */
} run_result;

static void fetch(run_result *result) {
    ss_link_mark mark;
    while (library->answer(&board, &mark)) {
        EXPECT(result->count < MOST_MARKS);
        result->marks[result->count++] = mark;
    }
}

/* A session whose samples begin at base_s seconds and some ticks. */
static void run(int64_t base_s, int64_t rest, run_result *result) {
    const ss_link_format format = make_format();
    const int64_t base = base_s * TICKS;
    memset(result, 0, sizeof *result);
    library->begin(&board);
    EXPECT(library->told(&board) == NULL);
    EXPECT(library->start(&board, &format, base + rest) == NULL);
    EXPECT(board.library.joint.pressure.start_s == 86400 + base_s);
    int64_t next[2] = {base_s * ECG_HZ + (rest + 1) / 2, base_s * LIGHT_HZ + (rest + 4) / 5};
    for (int64_t tick = base + rest; tick < base + SECONDS * TICKS; tick += PIECE) {
        int32_t codes[2][PIECE];
        uint16_t status[2][PIECE];
        ss_board_piece piece;
        memset(&piece, 0, sizeof piece);
        piece.until_tick = tick + PIECE;
        for (unsigned c = 0; c < 2; c++) {
            const int64_t step = c == 0 ? 2 : 5;
            ss_board_run *of = &piece.channels[c];
            of->codes = codes[c];
            of->status = status[c];
            of->first = next[c];
            for (; next[c] * step < piece.until_tick; next[c]++) {
                codes[c][of->count] = c == 0 ? ecg_code(next[c] - base_s * ECG_HZ) : light_code(next[c] - base_s * LIGHT_HZ);
                status[c][of->count] = 0;
                of->count++;
            }
        }
        unsigned takes = 0;
        int64_t now;
        do {
            takes++;
            EXPECT(takes < 100);
            now = library->take(&board, &piece);
            fetch(result);
        } while (now < piece.until_tick);
        EXPECT(now == piece.until_tick);
        result->most_takes = takes > result->most_takes ? takes : result->most_takes;
    }
    library->flush(&board);
    fetch(result);
}

static run_result early;
static run_result late;

/* An hour, a day, a year, 10,000 years. All that differs is where. */
static void check_late_start(void) {
    static const int64_t bases[] = {1, 3600, 86400, 31536000, INT64_C(315360000000)};
    static const int64_t rates[] = {ECG_HZ, LIGHT_HZ};
    static const int64_t rests[] = {0, 1, 137, 499};
    unsigned paired = 0;
    for (unsigned r = 0; r < sizeof rests / sizeof rests[0]; r++) {
        run(0, rests[r], &early);
        EXPECT(early.count > 100);
        for (unsigned b = 0; b < sizeof bases / sizeof bases[0]; b++) {
            run(bases[b], rests[r], &late);
            /* At most the tenths of one second are passed over, not those of the stream's whole past. */
            EXPECT(late.most_takes <= 11 && late.most_takes == early.most_takes);
            EXPECT(late.count == early.count);
            for (unsigned i = 0; i < late.count; i++) {
                ss_link_mark mark = late.marks[i];
                mark.sample -= bases[b] * rates[mark.channel];
                mark.emitted_tick -= bases[b] * TICKS;
                if (mark.paired_channel != SS_LINK_NOT_PAIRED) {
                    mark.paired_sample -= bases[b] * rates[mark.paired_channel];
                    paired++;
                }
                EXPECT(memcmp(&mark, &early.marks[i], sizeof mark) == 0);
            }
        }
    }
    EXPECT(paired > 100);
    /* Later than days are counted: a sentence, not an overflow. */
    const ss_link_format format = make_format();
    library->begin(&board);
    EXPECT(library->start(&board, &format, SS_LINK_MAX_TICK) != NULL);
}

/* ---- Values: the ranges of the page ---- */

static int64_t number(const char *text, const char **end) {
    int64_t value = 0;
    int is_negative = 0;
    if (strncmp(text, "\xE2\x88\x92", 3) == 0) {
        is_negative = 1;
        text += 3;
    }
    EXPECT(isdigit((unsigned char)*text));
    for (; isdigit((unsigned char)*text) || (*text == ',' && isdigit((unsigned char)text[1])); text++) {
        value = *text == ',' ? value : value * 10 + (*text - '0');
    }
    *end = text;
    return is_negative ? -value : value;
}

static int takes(uint16_t item, uint16_t index, int64_t value) {
    /* An oxygen pair wants to know first how many there are. */
    const ss_link_item items[2] = {{2, SS_LINK_SETUP_OXYGEN_PAIRS, 0}, {value, item, index}};
    library->begin(&board);
    const ss_library_told before = board.room.told;
    const int is_taken = library->setup(&board, items, 2);
    /* All or nothing: the pairs before a bad item are not taken either. */
    EXPECT(is_taken || memcmp(&before, &board.room.told, sizeof before) == 0);
    EXPECT(!is_taken || memcmp(&before, &board.room.told, sizeof before) != 0);
    return is_taken;
}

/* Each row of the page's table: | item | index | value | unit, least to most | */
static unsigned check_ranges(const char *page) {
    char row[1024];
    unsigned rows = 0;
    FILE *file = fopen(page, "r");
    EXPECT(file != NULL);
    while (fgets(row, sizeof row, file) != NULL) {
        unsigned item = 0;
        char index[16];
        if (sscanf(row, "| %4x | %15[a-z0-9] |", &item, index) != 2 || strspn(row + 2, "0123456789ABCDEF") != 4 || item >= SS_LINK_SETUP_FIRST_OF_DETECTOR) {
            continue;
        }
        char *to = strstr(row, " to ");
        for (char *next = to; next != NULL; next = strstr(next + 1, " to ")) {
            to = next;
        }
        EXPECT(to != NULL);
        const char *from = to;
        while (from > row && from[-1] != ' ') {
            from--;
        }
        const char *end;
        const int64_t least = number(from, &end);
        EXPECT(end == to);
        const int64_t most = number(to + 4, &end);
        EXPECT(strcmp(end, " |\n") == 0 && least < most);
        const uint16_t at = isdigit((unsigned char)index[0]) ? 0 : 1;
        EXPECT(takes((uint16_t)item, at, least) && takes((uint16_t)item, at, most));
        EXPECT(!takes((uint16_t)item, at, least - 1) && !takes((uint16_t)item, at, most + 1));
        EXPECT(!takes((uint16_t)item, at, INT64_MIN) && !takes((uint16_t)item, at, INT64_MAX));
        EXPECT(!takes((uint16_t)item, 2, least));
        rows++;
    }
    EXPECT(fclose(file) == 0);
    EXPECT(!takes(0x0002, 0, 1) && !takes(0x0309, 0, 1) && !takes(0x0408, 0, 1) && !takes(SS_LINK_SETUP_FIRST_OF_DETECTOR, 0, 1));
    return rows;
}

/* What only shows when all is told. */
static void check_told(void) {
    const ss_link_item oxygen[] = {
        {2, SS_LINK_SETUP_OXYGEN_PAIRS, 0}, {5000, SS_LINK_SETUP_OXYGEN_RATIO, 0}, {98000, SS_LINK_SETUP_OXYGEN_MILLI_PERCENT, 0},
        {8000, SS_LINK_SETUP_OXYGEN_RATIO, 1}, {90000, SS_LINK_SETUP_OXYGEN_MILLI_PERCENT, 1},
    };
    library->begin(&board);
    EXPECT(library->setup(&board, oxygen, 4) && library->told(&board) != NULL);
    EXPECT(library->setup(&board, oxygen + 4, 1) && library->told(&board) == NULL && library->told(&board) == NULL);
    const ss_link_item falls = {4000, SS_LINK_SETUP_OXYGEN_RATIO, 1};
    EXPECT(library->setup(&board, &falls, 1) && library->told(&board) != NULL);

    const ss_link_item pressure[] = {
        {1, SS_LINK_SETUP_PRESSURE_POINTS, 0}, {1, SS_LINK_SETUP_PRESSURE_MODEL, 0}, {0, SS_LINK_SETUP_PRESSURE_SLOPE_MILLI, 0},
        {17000, SS_LINK_SETUP_PRESSURE_ZETA_MICRO, 0}, {500, SS_LINK_SETUP_PRESSURE_DIASTOLIC_SHARE_PERMILLE, 0},
        {30, SS_LINK_SETUP_PRESSURE_LONGEST_AGE_DAYS, 0}, {30000, SS_LINK_SETUP_PRESSURE_REACH_MILLI, 0},
        {120000, SS_LINK_SETUP_CUFF_SYSTOLIC_MILLI, 0}, {80000, SS_LINK_SETUP_CUFF_DIASTOLIC_MILLI, 0},
        {200000, SS_LINK_SETUP_CUFF_ARRIVAL_US, 0},
    };
    library->begin(&board);
    EXPECT(library->setup(&board, pressure, 9) && library->told(&board) != NULL);
    EXPECT(library->setup(&board, pressure + 9, 1) && library->told(&board) == NULL);
    const ss_link_item above = {115000, SS_LINK_SETUP_CUFF_DIASTOLIC_MILLI, 0};
    EXPECT(library->setup(&board, &above, 1) && library->told(&board) != NULL);
}

int main(int argc, char **argv) {
    EXPECT(argc == 2);
    check_late_start();
    const unsigned rows = check_ranges(argv[1]);
    EXPECT(rows == 36);
    check_told();
    printf("library on a board: %u marks, the same wherever the session begins; %u items within the ranges of the page\n", early.count, rows);
    return 0;
}
