/* SPDX-License-Identifier: MIT */
#include "sensorsim_link.h"

#include <string.h>

#define HEADER_BYTES 8u
#define CHECK_BYTES 4u
#define PAYLOAD_AT 10u /* a 00, the first code of COBS, the header */
#define MARK_BYTES 44u
#define ITEM_BYTES 12u
#define SAMPLES_BYTES 16u
#define SECTION_BYTES 4u

/* ---- Numbers, low byte first ---- */

static uint16_t get16(const uint8_t *p) { return (uint16_t)(p[0] | (uint16_t)(p[1] << 8)); }

static uint32_t get32(const uint8_t *p) { return (uint32_t)get16(p) | ((uint32_t)get16(p + 2) << 16); }

static int32_t get_s32(const uint8_t *p) { return (int32_t)get32(p); }

static int64_t get_s64(const uint8_t *p) { return (int64_t)(((uint64_t)get32(p + 4) << 32) | get32(p)); }

static void put16(uint8_t *p, uint32_t v) {
    p[0] = (uint8_t)v;
    p[1] = (uint8_t)(v >> 8);
}

static void put32(uint8_t *p, uint32_t v) {
    put16(p, v & 0xFFFFu);
    put16(p + 2, v >> 16);
}

static void put_s64(uint8_t *p, int64_t v) {
    put32(p, (uint32_t)(uint64_t)v);
    put32(p + 4, (uint32_t)((uint64_t)v >> 32));
}

/* ---- Check ---- */

/* Reflected polynomial of Castagnoli, 82F63B78: what one byte, or half of one, does. */
#ifdef SS_LINK_CRC_TABLE
static const uint32_t crc_of_byte[256] = {
    0x00000000u, 0xF26B8303u, 0xE13B70F7u, 0x1350F3F4u, 0xC79A971Fu, 0x35F1141Cu, 0x26A1E7E8u, 0xD4CA64EBu,
    0x8AD958CFu, 0x78B2DBCCu, 0x6BE22838u, 0x9989AB3Bu, 0x4D43CFD0u, 0xBF284CD3u, 0xAC78BF27u, 0x5E133C24u,
    0x105EC76Fu, 0xE235446Cu, 0xF165B798u, 0x030E349Bu, 0xD7C45070u, 0x25AFD373u, 0x36FF2087u, 0xC494A384u,
    0x9A879FA0u, 0x68EC1CA3u, 0x7BBCEF57u, 0x89D76C54u, 0x5D1D08BFu, 0xAF768BBCu, 0xBC267848u, 0x4E4DFB4Bu,
    0x20BD8EDEu, 0xD2D60DDDu, 0xC186FE29u, 0x33ED7D2Au, 0xE72719C1u, 0x154C9AC2u, 0x061C6936u, 0xF477EA35u,
    0xAA64D611u, 0x580F5512u, 0x4B5FA6E6u, 0xB93425E5u, 0x6DFE410Eu, 0x9F95C20Du, 0x8CC531F9u, 0x7EAEB2FAu,
    0x30E349B1u, 0xC288CAB2u, 0xD1D83946u, 0x23B3BA45u, 0xF779DEAEu, 0x05125DADu, 0x1642AE59u, 0xE4292D5Au,
    0xBA3A117Eu, 0x4851927Du, 0x5B016189u, 0xA96AE28Au, 0x7DA08661u, 0x8FCB0562u, 0x9C9BF696u, 0x6EF07595u,
    0x417B1DBCu, 0xB3109EBFu, 0xA0406D4Bu, 0x522BEE48u, 0x86E18AA3u, 0x748A09A0u, 0x67DAFA54u, 0x95B17957u,
    0xCBA24573u, 0x39C9C670u, 0x2A993584u, 0xD8F2B687u, 0x0C38D26Cu, 0xFE53516Fu, 0xED03A29Bu, 0x1F682198u,
    0x5125DAD3u, 0xA34E59D0u, 0xB01EAA24u, 0x42752927u, 0x96BF4DCCu, 0x64D4CECFu, 0x77843D3Bu, 0x85EFBE38u,
    0xDBFC821Cu, 0x2997011Fu, 0x3AC7F2EBu, 0xC8AC71E8u, 0x1C661503u, 0xEE0D9600u, 0xFD5D65F4u, 0x0F36E6F7u,
    0x61C69362u, 0x93AD1061u, 0x80FDE395u, 0x72966096u, 0xA65C047Du, 0x5437877Eu, 0x4767748Au, 0xB50CF789u,
    0xEB1FCBADu, 0x197448AEu, 0x0A24BB5Au, 0xF84F3859u, 0x2C855CB2u, 0xDEEEDFB1u, 0xCDBE2C45u, 0x3FD5AF46u,
    0x7198540Du, 0x83F3D70Eu, 0x90A324FAu, 0x62C8A7F9u, 0xB602C312u, 0x44694011u, 0x5739B3E5u, 0xA55230E6u,
    0xFB410CC2u, 0x092A8FC1u, 0x1A7A7C35u, 0xE811FF36u, 0x3CDB9BDDu, 0xCEB018DEu, 0xDDE0EB2Au, 0x2F8B6829u,
    0x82F63B78u, 0x709DB87Bu, 0x63CD4B8Fu, 0x91A6C88Cu, 0x456CAC67u, 0xB7072F64u, 0xA457DC90u, 0x563C5F93u,
    0x082F63B7u, 0xFA44E0B4u, 0xE9141340u, 0x1B7F9043u, 0xCFB5F4A8u, 0x3DDE77ABu, 0x2E8E845Fu, 0xDCE5075Cu,
    0x92A8FC17u, 0x60C37F14u, 0x73938CE0u, 0x81F80FE3u, 0x55326B08u, 0xA759E80Bu, 0xB4091BFFu, 0x466298FCu,
    0x1871A4D8u, 0xEA1A27DBu, 0xF94AD42Fu, 0x0B21572Cu, 0xDFEB33C7u, 0x2D80B0C4u, 0x3ED04330u, 0xCCBBC033u,
    0xA24BB5A6u, 0x502036A5u, 0x4370C551u, 0xB11B4652u, 0x65D122B9u, 0x97BAA1BAu, 0x84EA524Eu, 0x7681D14Du,
    0x2892ED69u, 0xDAF96E6Au, 0xC9A99D9Eu, 0x3BC21E9Du, 0xEF087A76u, 0x1D63F975u, 0x0E330A81u, 0xFC588982u,
    0xB21572C9u, 0x407EF1CAu, 0x532E023Eu, 0xA145813Du, 0x758FE5D6u, 0x87E466D5u, 0x94B49521u, 0x66DF1622u,
    0x38CC2A06u, 0xCAA7A905u, 0xD9F75AF1u, 0x2B9CD9F2u, 0xFF56BD19u, 0x0D3D3E1Au, 0x1E6DCDEEu, 0xEC064EEDu,
    0xC38D26C4u, 0x31E6A5C7u, 0x22B65633u, 0xD0DDD530u, 0x0417B1DBu, 0xF67C32D8u, 0xE52CC12Cu, 0x1747422Fu,
    0x49547E0Bu, 0xBB3FFD08u, 0xA86F0EFCu, 0x5A048DFFu, 0x8ECEE914u, 0x7CA56A17u, 0x6FF599E3u, 0x9D9E1AE0u,
    0xD3D3E1ABu, 0x21B862A8u, 0x32E8915Cu, 0xC083125Fu, 0x144976B4u, 0xE622F5B7u, 0xF5720643u, 0x07198540u,
    0x590AB964u, 0xAB613A67u, 0xB831C993u, 0x4A5A4A90u, 0x9E902E7Bu, 0x6CFBAD78u, 0x7FAB5E8Cu, 0x8DC0DD8Fu,
    0xE330A81Au, 0x115B2B19u, 0x020BD8EDu, 0xF0605BEEu, 0x24AA3F05u, 0xD6C1BC06u, 0xC5914FF2u, 0x37FACCF1u,
    0x69E9F0D5u, 0x9B8273D6u, 0x88D28022u, 0x7AB90321u, 0xAE7367CAu, 0x5C18E4C9u, 0x4F48173Du, 0xBD23943Eu,
    0xF36E6F75u, 0x0105EC76u, 0x12551F82u, 0xE03E9C81u, 0x34F4F86Au, 0xC69F7B69u, 0xD5CF889Du, 0x27A40B9Eu,
    0x79B737BAu, 0x8BDCB4B9u, 0x988C474Du, 0x6AE7C44Eu, 0xBE2DA0A5u, 0x4C4623A6u, 0x5F16D052u, 0xAD7D5351u};

uint32_t ss_link_crc32c(const uint8_t *bytes, size_t count) {
    uint32_t rest = 0xFFFFFFFFu;
    size_t i;
    for (i = 0; i < count; i++) {
        rest = (rest >> 8) ^ crc_of_byte[(rest ^ bytes[i]) & 255u];
    }
    return ~rest;
}
#else
static const uint32_t crc_of_half[16] = {
    0x00000000u, 0x105EC76Fu, 0x20BD8EDEu, 0x30E349B1u, 0x417B1DBCu, 0x5125DAD3u, 0x61C69362u, 0x7198540Du,
    0x82F63B78u, 0x92A8FC17u, 0xA24BB5A6u, 0xB21572C9u, 0xC38D26C4u, 0xD3D3E1ABu, 0xE330A81Au, 0xF36E6F75u};

uint32_t ss_link_crc32c(const uint8_t *bytes, size_t count) {
    uint32_t rest = 0xFFFFFFFFu;
    size_t i;
    for (i = 0; i < count; i++) {
        rest ^= bytes[i];
        rest = (rest >> 4) ^ crc_of_half[rest & 15u];
        rest = (rest >> 4) ^ crc_of_half[rest & 15u];
    }
    return ~rest;
}
#endif

/* ---- Frames ---- */

uint8_t *ss_link_payload(uint8_t *wire) { return wire + PAYLOAD_AT; }

const uint8_t *ss_link_seal(ss_link_writer *writer, uint8_t type, size_t payload_length, uint8_t *wire, size_t *wire_length) {
    size_t length = HEADER_BYTES + payload_length + CHECK_BYTES;
    size_t code = 1; /* where the code of the group stands */
    size_t at;
    int has_front = type == SS_LINK_HELLO || type == SS_LINK_ABOUT || type == SS_LINK_ASK;
    uint8_t *body = wire + 2;
    body[0] = SS_LINK_VERSION;
    body[1] = type;
    put16(body + 2, (uint32_t)payload_length);
    put32(body + 4, writer->next_sequence++);
    put32(body + length - CHECK_BYTES, ss_link_crc32c(body, length - CHECK_BYTES));

    /* COBS in place: a body is shorter than a full group, so only zeros change, into the distance to the next one. */
    for (at = 2; at < 2 + length; at++) {
        if (wire[at] == 0) {
            wire[code] = (uint8_t)(at - code);
            code = at;
        }
    }
    wire[code] = (uint8_t)(at - code);
    wire[0] = 0;
    wire[at] = 0;
    *wire_length = at + (has_front ? 1u : 0u);
    return has_front ? wire : wire + 1;
}

enum { EMPTY = 0, INSIDE, SPOILT };

static void keep(ss_link_reader *r, uint8_t byte) {
    if (r->length == SS_LINK_MAX_BODY) {
        r->state = SPOILT;
    } else {
        r->body[r->length++] = byte;
    }
}

static int finish(ss_link_reader *r, ss_link_frame *frame) {
    size_t length = r->length;
    int is_spoilt = r->state == SPOILT || r->left != 0;
    int is_empty = r->state == EMPTY;
    uint32_t sequence;
    r->length = 0;
    r->left = 0;
    r->state = EMPTY;
    if (is_empty) {
        return 0;
    }
    if (is_spoilt || length < HEADER_BYTES + CHECK_BYTES || get16(r->body + 2) != length - HEADER_BYTES - CHECK_BYTES ||
        get32(r->body + length - CHECK_BYTES) != ss_link_crc32c(r->body, length - CHECK_BYTES)) {
        r->damaged++;
        return 0;
    }

    sequence = get32(r->body + 4);
    if (r->body[0] != SS_LINK_VERSION) {
        r->damaged++;
        r->other_version++;
        r->other_version_sequence = sequence;
        return 0;
    }
    if (r->has_last && r->body[1] != SS_LINK_HELLO && r->body[1] != SS_LINK_ABOUT) {
        uint32_t ahead = sequence - r->last;
        if (ahead == 0 || ahead > 0x7FFFFFFFu) {
            r->repeated++;
            return 0;
        }
        r->missing += ahead - 1;
    }

    r->has_last = 1;
    r->last = sequence;
    r->good++;
    frame->type = r->body[1];
    frame->sequence = sequence;
    frame->length = (uint16_t)(length - HEADER_BYTES - CHECK_BYTES);
    frame->payload = r->body + HEADER_BYTES;
    return 1;
}

int ss_link_take(ss_link_reader *r, uint8_t byte, ss_link_frame *frame) {
    if (byte == 0) {
        return finish(r, frame);
    }
    if (r->state == SPOILT) {
        return 0;
    }
    if (r->left != 0) {
        r->left--;
        keep(r, byte);
        return 0;
    }

    /* The code of a group. One of 255 does not fit into a body, so each group but the last ends with the 00 that it implies. */
    r->left = (uint8_t)(byte - 1);
    if (r->state == INSIDE) {
        keep(r, 0);
    } else {
        r->state = INSIDE;
    }
    return 0;
}

size_t ss_link_read(ss_link_reader *reader, const uint8_t *bytes, size_t count, ss_link_frame *frame, int *is_frame) {
    size_t i;
    for (i = 0; i < count; i++) {
        if (ss_link_take(reader, bytes[i], frame)) {
            *is_frame = 1;
            return i + 1;
        }
    }
    *is_frame = 0;
    return count;
}

/* ---- Text ---- */

/* A character is not cut: the bytes 10xxxxxx go with the one before them. */
static size_t put_text(ss_link_text text, size_t at, uint8_t *payload) {
    size_t length = text.length;
    if (length > SS_LINK_MAX_PAYLOAD - at) {
        length = SS_LINK_MAX_PAYLOAD - at;
        while (length > 0 && ((uint8_t)text.text[length] & 0xC0u) == 0x80u) {
            length--;
        }
    }
    if (length > 0) {
        memcpy(payload + at, text.text, length);
    }
    return at + length;
}

static ss_link_text get_text(const uint8_t *payload, size_t at, size_t length) {
    ss_link_text text;
    text.text = (const char *)payload + at;
    text.length = length - at;
    return text;
}

/* ---- Small payloads ---- */

size_t ss_link_write_hello(const ss_link_hello *hello, uint8_t *payload) {
    put32(payload, hello->session);
    payload[4] = hello->oldest_version;
    payload[5] = hello->newest_version;
    put16(payload + 6, 0);
    return put_text(hello->who, 8, payload);
}

int ss_link_read_hello(const uint8_t *payload, size_t length, ss_link_hello *hello) {
    if (length < 8) {
        return 0;
    }
    hello->session = get32(payload);
    hello->oldest_version = payload[4];
    hello->newest_version = payload[5];
    hello->who = get_text(payload, 8, length);
    return 1;
}

size_t ss_link_write_about(const ss_link_about *about, uint8_t *payload) {
    put32(payload, about->session);
    payload[4] = about->version;
    payload[5] = 0;
    put16(payload + 6, about->largest_payload);
    put32(payload + 8, about->credit);
    put32(payload + 12, about->state_bytes);
    return put_text(about->detector, 16, payload);
}

int ss_link_read_about(const uint8_t *payload, size_t length, ss_link_about *about) {
    if (length < 16) {
        return 0;
    }
    about->session = get32(payload);
    about->version = payload[4];
    about->largest_payload = get16(payload + 6);
    about->credit = get32(payload + 8);
    about->state_bytes = get32(payload + 12);
    about->detector = get_text(payload, 16, length);
    return 1;
}

static int is_tick(int64_t tick) { return tick >= 0 && tick <= SS_LINK_MAX_TICK; }

size_t ss_link_write_tick(int64_t tick, uint8_t *payload) {
    put_s64(payload, tick);
    return 8;
}

int ss_link_read_tick(const uint8_t *payload, size_t length, int64_t *tick) {
    if (length != 8) {
        return 0;
    }
    *tick = get_s64(payload);
    return is_tick(*tick);
}

size_t ss_link_write_capture(uint8_t *payload) {
    put32(payload, 0);
    return 4;
}

int ss_link_read_capture(const uint8_t *payload, size_t length) {
    (void)payload;
    return length == 4;
}

size_t ss_link_write_accepted(const ss_link_accepted *accepted, uint8_t *payload) {
    put32(payload, accepted->type);
    put32(payload + 4, accepted->sequence);
    return 8;
}

int ss_link_read_accepted(const uint8_t *payload, size_t length, ss_link_accepted *accepted) {
    if (length != 8) {
        return 0;
    }
    accepted->type = payload[0];
    accepted->sequence = get32(payload + 4);
    return 1;
}

size_t ss_link_write_progress(const ss_link_progress *progress, uint8_t *payload) {
    put32(payload, progress->session);
    put32(payload + 4, progress->credit);
    put_s64(payload + 8, progress->taken_tick);
    put32(payload + 16, progress->accepted);
    put32(payload + 20, progress->damaged);
    put32(payload + 24, progress->missing);
    put32(payload + 28, progress->repeated);
    put32(payload + 32, progress->marks_sent);
    put32(payload + 36, progress->clock_us);
    return 40;
}

int ss_link_read_progress(const uint8_t *payload, size_t length, ss_link_progress *progress) {
    if (length != 40) {
        return 0;
    }
    progress->session = get32(payload);
    progress->credit = get32(payload + 4);
    progress->taken_tick = get_s64(payload + 8);
    progress->accepted = get32(payload + 16);
    progress->damaged = get32(payload + 20);
    progress->missing = get32(payload + 24);
    progress->repeated = get32(payload + 28);
    progress->marks_sent = get32(payload + 32);
    progress->clock_us = get32(payload + 36);
    return is_tick(progress->taken_tick);
}

size_t ss_link_write_setting(const ss_link_setting *setting, uint8_t *payload) {
    payload[0] = setting->channel;
    payload[1] = setting->setting;
    put16(payload + 2, 0);
    put32(payload + 4, (uint32_t)setting->value_milli);
    put_s64(payload + 8, setting->first_tick);
    return 16;
}

int ss_link_read_setting(const uint8_t *payload, size_t length, ss_link_setting *setting) {
    if (length != 16) {
        return 0;
    }
    setting->channel = payload[0];
    setting->setting = payload[1];
    setting->value_milli = get_s32(payload + 4);
    setting->first_tick = get_s64(payload + 8);
    return setting->setting < SS_LINK_SETTINGS && is_tick(setting->first_tick);
}

size_t ss_link_write_log(const ss_link_log *log, uint8_t *payload) {
    payload[0] = log->level;
    return put_text(log->text, 1, payload);
}

int ss_link_read_log(const uint8_t *payload, size_t length, ss_link_log *log) {
    if (length < 1 || payload[0] > 2) {
        return 0;
    }
    log->level = payload[0];
    log->text = get_text(payload, 1, length);
    return 1;
}

size_t ss_link_write_trouble(const ss_link_trouble *trouble, uint8_t *payload) {
    put32(payload, trouble->code);
    put32(payload + 4, trouble->sequence);
    return put_text(trouble->text, 8, payload);
}

int ss_link_read_trouble(const uint8_t *payload, size_t length, ss_link_trouble *trouble) {
    if (length < 8) {
        return 0;
    }
    trouble->code = get16(payload);
    trouble->sequence = get32(payload + 4);
    trouble->text = get_text(payload, 8, length);
    return 1;
}

size_t ss_link_put_item(const ss_link_item *item, unsigned at, uint8_t *payload) {
    uint8_t *p = payload + (ITEM_BYTES * at);
    put16(p, item->item);
    put16(p + 2, item->index);
    put_s64(p + 4, item->value);
    return ITEM_BYTES * ((size_t)at + 1);
}

int ss_link_read_items(size_t length, unsigned *count) {
    *count = (unsigned)length / ITEM_BYTES;
    return length <= SS_LINK_MAX_PAYLOAD && *count * ITEM_BYTES == length;
}

void ss_link_get_item(const uint8_t *payload, unsigned at, ss_link_item *item) {
    const uint8_t *p = payload + (ITEM_BYTES * at);
    item->item = get16(p);
    item->index = get16(p + 2);
    item->value = get_s64(p + 4);
}

/* ---- Marks ---- */

size_t ss_link_put_mark(const ss_link_mark *mark, unsigned at, uint8_t *payload) {
    uint8_t *p = payload + 4 + (MARK_BYTES * at);
    put32(payload, at + 1);
    p[0] = mark->kind;
    p[1] = mark->channel;
    p[2] = mark->paired_channel;
    p[3] = mark->quality;
    p[4] = mark->fraction256;
    p[5] = mark->paired_fraction256;
    p[6] = (uint8_t)((mark->has_value ? 1 : 0) | (mark->is_in_codes ? 2 : 0));
    p[7] = 0;
    put_s64(p + 8, mark->sample);
    put_s64(p + 16, mark->paired_sample);
    put_s64(p + 24, mark->window_samples);
    put_s64(p + 32, mark->emitted_tick);
    put32(p + 40, (uint32_t)mark->value);
    return 4 + (MARK_BYTES * ((size_t)at + 1));
}

int ss_link_read_marks(const uint8_t *payload, size_t length, unsigned channel_count, unsigned *count) {
    unsigned i;
    if (length < 4 || payload[0] < 1 || payload[0] > SS_LINK_MAX_MARKS || length != 4 + (MARK_BYTES * (size_t)payload[0])) {
        return 0;
    }
    *count = payload[0];
    for (i = 0; i < *count; i++) {
        const uint8_t *p = payload + 4 + (MARK_BYTES * i);
        if (p[0] >= SS_LINK_MARK_KINDS || p[1] >= channel_count || (p[2] != SS_LINK_NOT_PAIRED && p[2] >= channel_count)) {
            return 0;
        }
    }
    return 1;
}

void ss_link_get_mark(const uint8_t *payload, unsigned at, ss_link_mark *mark) {
    const uint8_t *p = payload + 4 + (MARK_BYTES * at);
    int is_paired = p[2] != SS_LINK_NOT_PAIRED;
    mark->kind = p[0];
    mark->channel = p[1];
    mark->paired_channel = p[2];
    mark->quality = p[3];
    mark->fraction256 = p[4];
    mark->paired_fraction256 = is_paired ? p[5] : 0;
    mark->has_value = p[6] & 1u;
    mark->is_in_codes = (uint8_t)((p[6] >> 1) & 1u);
    mark->sample = get_s64(p + 8);
    mark->paired_sample = is_paired ? get_s64(p + 16) : 0;
    mark->window_samples = get_s64(p + 24);
    mark->emitted_tick = get_s64(p + 32);
    mark->value = get_s32(p + 40);
}

/* ---- Format ---- */

static uint32_t common_divisor(uint32_t a, uint32_t b) {
    while (b != 0) {
        uint32_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* A binary64 above 0 that is finite. */
static int is_positive(const uint8_t *p) {
    static const uint8_t zeros[8] = {0};
    return memcmp(p, zeros, sizeof zeros) != 0 && (p[7] & 0x80u) == 0 && !(p[7] == 0x7Fu && (p[6] & 0xF0u) == 0xF0u);
}

static int is_channel(const uint8_t *p) {
    uint32_t rate = get32(p + 4);
    return p[0] < SS_LINK_MAX_CHANNELS && p[1] >= 4 && p[1] <= 24 && rate >= 1 && rate <= 0x7FFFFFFFu && (is_positive(p + 40) || get_s32(p + 16) > 0);
}

/* All channels together: ascending, and the clock is the lowest common multiple of the rates (then the steps have no common divisor). */
static int is_stream(const ss_link_format *format, const uint8_t *payload) {
    unsigned first = payload[5], here = payload[6], i;
    uint32_t ticks = get32(payload), divisor = 0;
    const uint8_t *before = NULL;
    if (ticks > 1000000000u) {
        return 0;
    }
    for (i = 0; i < payload[4]; i++) {
        const uint8_t *p = i >= first && i < first + here ? payload + 8 + (SS_LINK_CHANNEL_BYTES * (i - first)) : format->channels[i];
        if ((before != NULL && p[0] <= before[0]) || (uint64_t)get32(p + 4) * get32(p + 8) != ticks) {
            return 0;
        }
        divisor = common_divisor(get32(p + 8), divisor);
        before = p;
    }
    return divisor == 1;
}

int ss_link_read_format(const uint8_t *payload, size_t length, ss_link_format *format) {
    unsigned first, here, i, told, all;
    if (length < 8) {
        return 0;
    }
    first = payload[5];
    here = payload[6];
    if (payload[4] < 1 || payload[4] > SS_LINK_MAX_CHANNELS || here < 1 || here > SS_LINK_CHANNELS_EACH || first + here > payload[4] ||
        length != 8 + (SS_LINK_CHANNEL_BYTES * (size_t)here)) {
        return 0;
    }
    if (format->told != 0 && (format->channel_count != payload[4] || format->ticks_per_second != get32(payload))) {
        return 0;
    }
    told = format->told;
    for (i = 0; i < here; i++) {
        const uint8_t *p = payload + 8 + (SS_LINK_CHANNEL_BYTES * i);
        if (!is_channel(p) || (((unsigned)format->told >> (first + i)) & 1u && memcmp(p, format->channels[first + i], SS_LINK_CHANNEL_BYTES) != 0)) {
            return 0;
        }
        told |= 1u << (first + i);
    }
    all = (1u << payload[4]) - 1;
    if (told == all && !is_stream(format, payload)) {
        return 0;
    }
    format->ticks_per_second = get32(payload);
    format->channel_count = payload[4];
    format->told = (uint8_t)told;
    memcpy(format->channels[first], payload + 8, SS_LINK_CHANNEL_BYTES * here);
    return 1;
}

int ss_link_format_is_complete(const ss_link_format *format) {
    return format->channel_count != 0 && format->told == (uint8_t)((1u << format->channel_count) - 1);
}

void ss_link_get_channel(const ss_link_format *format, unsigned channel, ss_link_channel *out) {
    const uint8_t *p = format->channels[channel];
    out->name = p[0];
    out->bits = p[1];
    out->is_signed = p[2] & 1u;
    out->falls = (uint8_t)((p[2] >> 1) & 1u);
    out->device = p[3];
    out->rate_hz = get32(p + 4);
    out->ticks_per_sample = get32(p + 8);
    out->zero_code = get_s32(p + 12);
    out->codes_per_unit256 = get_s32(p + 16);
    out->delay256 = get_s64(p + 24);
    out->delay_ns = get_s64(p + 32);
    memcpy(out->unit_per_code, p + 40, sizeof out->unit_per_code);
}

void ss_link_set_channel(ss_link_format *format, unsigned channel, const ss_link_channel *in) {
    uint8_t *p = format->channels[channel];
    memset(p, 0, SS_LINK_CHANNEL_BYTES);
    p[0] = in->name;
    p[1] = in->bits;
    p[2] = (uint8_t)((in->is_signed ? 1 : 0) | (in->falls ? 2 : 0));
    p[3] = in->device;
    put32(p + 4, in->rate_hz);
    put32(p + 8, in->ticks_per_sample);
    put32(p + 12, (uint32_t)in->zero_code);
    put32(p + 16, (uint32_t)in->codes_per_unit256);
    put_s64(p + 24, in->delay256);
    put_s64(p + 32, in->delay_ns);
    memcpy(p + 40, in->unit_per_code, sizeof in->unit_per_code);
    format->told = (uint8_t)(format->told | (1u << channel));
}

size_t ss_link_write_format(const ss_link_format *format, unsigned number, uint8_t *payload) {
    unsigned first = number * SS_LINK_CHANNELS_EACH, here;
    if (first >= format->channel_count) {
        return 0;
    }
    here = format->channel_count - first;
    here = here > SS_LINK_CHANNELS_EACH ? SS_LINK_CHANNELS_EACH : here;
    put32(payload, format->ticks_per_second);
    payload[4] = format->channel_count;
    payload[5] = (uint8_t)first;
    payload[6] = (uint8_t)here;
    payload[7] = 0;
    memcpy(payload + 8, format->channels[first], SS_LINK_CHANNEL_BYTES * here);
    return 8 + (SS_LINK_CHANNEL_BYTES * (size_t)here);
}

/* ---- Samples ---- */

static size_t status_bytes(unsigned mode, unsigned count) { return mode == 0 ? 0u : mode == 1 ? 2u : 2u * (size_t)count; }

static size_t code_bytes(unsigned count, unsigned bits) { return (((size_t)count * bits) + 7u) / 8u; }

/* Index of the first sample at or after a tick; once for each section. */
static int64_t index_at(int64_t tick, uint32_t step) { return (int64_t)(((uint64_t)tick + step - 1) / step); }

unsigned ss_link_read_samples(const ss_link_format *format, const uint8_t *payload, size_t length, ss_link_samples *samples) {
    size_t at = SAMPLES_BYTES;
    int last = -1;
    unsigned i;
    if (length < SAMPLES_BYTES) {
        return SS_LINK_WRONG_CONTENT;
    }
    samples->begin_tick = get_s64(payload);
    samples->ticks = get32(payload + 8);
    samples->sections = payload[12];
    samples->wants_progress = payload[13] & 1u;
    samples->next = payload + SAMPLES_BYTES;
    samples->left = payload[12];
    if (!is_tick(samples->begin_tick) || samples->ticks > (format->ticks_per_second + 9) / 10 || (samples->ticks == 0 && samples->sections != 0)) {
        return SS_LINK_WRONG_CONTENT;
    }
    for (i = 0; i < samples->sections; i++) {
        const uint8_t *p = payload + at;
        uint32_t step;
        int64_t last_index;
        if (length - at < SECTION_BYTES) {
            return SS_LINK_WRONG_CONTENT;
        }
        if (p[0] >= format->channel_count) {
            return SS_LINK_NO_SUCH_CHANNEL;
        }
        if (p[0] <= last || p[1] > 2 || p[2] == 0) {
            return SS_LINK_WRONG_CONTENT;
        }
        step = get32(format->channels[p[0]] + 8);
        last_index = index_at(samples->begin_tick, step) + p[3] + p[2] - 1;
        last = p[0];
        at += SECTION_BYTES + status_bytes(p[1], p[2]) + code_bytes(p[2], format->channels[p[0]][1]);
        if (at > length || last_index * step >= samples->begin_tick + samples->ticks) {
            return SS_LINK_WRONG_CONTENT;
        }
    }
    return at == length ? SS_LINK_NO_TROUBLE : SS_LINK_WRONG_CONTENT;
}

int ss_link_next_section(const ss_link_format *format, ss_link_samples *samples, ss_link_section *section) {
    const uint8_t *p = samples->next;
    const uint8_t *channel;
    if (samples->left == 0) {
        return 0;
    }
    channel = format->channels[p[0]];
    section->channel = p[0];
    section->status_mode = p[1];
    section->count = p[2];
    section->gap = p[3];
    section->bits = channel[1];
    section->is_signed = channel[2] & 1u;
    section->first_index = index_at(samples->begin_tick, get32(channel + 8)) + p[3];
    section->status = p + SECTION_BYTES;
    section->codes = section->status + status_bytes(p[1], p[2]);
    samples->next = section->codes + code_bytes(p[2], section->bits);
    samples->left--;
    return 1;
}

uint16_t ss_link_status(const ss_link_section *section, unsigned i) {
    return section->status_mode == 0 ? 0 : get16(section->status + (section->status_mode == 1 ? 0 : 2 * (size_t)i));
}

void ss_link_begin_codes(const ss_link_section *section, ss_link_codes *codes) {
    codes->at = section->codes;
    codes->waiting = 0;
    codes->filled = 0;
    codes->bits = section->bits;
    codes->is_signed = section->is_signed;
}

/* At most 7 bits wait when a code of 24 begins: 31 fit. */
int32_t ss_link_next_code(ss_link_codes *codes) {
    unsigned bits = codes->bits, filled = codes->filled;
    uint32_t waiting = codes->waiting, code;
    while (filled < bits) {
        waiting |= (uint32_t)*codes->at++ << filled;
        filled += 8;
    }
    code = waiting & ((1u << bits) - 1);
    codes->waiting = waiting >> bits;
    codes->filled = (uint8_t)(filled - bits);
    if (codes->is_signed && (code >> (bits - 1)) != 0) {
        return (int32_t)code - (int32_t)(1u << bits);
    }
    return (int32_t)code;
}

size_t ss_link_begin_samples(int64_t begin_tick, uint32_t ticks, int wants_progress, uint8_t *payload) {
    put_s64(payload, begin_tick);
    put32(payload + 8, ticks);
    payload[12] = 0;
    payload[13] = wants_progress ? 1 : 0;
    put16(payload + 14, 0);
    return SAMPLES_BYTES;
}

static unsigned mode_of(const uint16_t *status, unsigned count) {
    unsigned i;
    if (status == NULL) {
        return 0;
    }
    for (i = 1; i < count; i++) {
        if (status[i] != status[0]) {
            return 2;
        }
    }
    return status[0] == 0 ? 0 : 1;
}

size_t ss_link_add_section(uint8_t *payload, size_t length, uint8_t channel, uint8_t bits, uint8_t gap, const int32_t *codes, const uint16_t *status,
                           unsigned count) {
    unsigned mode = mode_of(status, count), words = mode == 2 ? count : mode, filled = 0, i;
    uint32_t waiting = 0, mask = (1u << bits) - 1;
    uint8_t *p = payload + length;
    if (count < 1 || count > 255 || length + SECTION_BYTES + status_bytes(mode, count) + code_bytes(count, bits) > SS_LINK_MAX_PAYLOAD) {
        return 0;
    }
    *p++ = channel;
    *p++ = (uint8_t)mode;
    *p++ = (uint8_t)count;
    *p++ = gap;
    for (i = 0; i < words; i++) {
        put16(p, status[i]);
        p += 2;
    }
    for (i = 0; i < count; i++) {
        waiting |= ((uint32_t)codes[i] & mask) << filled;
        for (filled += bits; filled >= 8; filled -= 8) {
            *p++ = (uint8_t)waiting;
            waiting >>= 8;
        }
    }
    if (filled > 0) {
        *p++ = (uint8_t)waiting;
    }
    payload[12]++;
    return (size_t)(p - payload);
}
