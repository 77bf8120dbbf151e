/* SPDX-License-Identifier: MIT */
/*
 * Counts the instructions that an emulated board executes, by function. A plugin of QEMU (TCG plugin interface, version 1; the prototypes
 * below are written out, since the interface is small and its header is not installed everywhere).
 *
 *   qemu-system-arm ... -plugin ./count.so,map=board.map,out=counts.txt
 *
 * The map has one function a line: address and size (hexadecimal), group, name; map.awk makes it from the linker's map. The result, written
 * when the emulator ends, has one line for each function that ran: group, name, calls, instructions; and one "outside" for code that is in
 * no function of the map. Counting adds one before each instruction, so an interrupt in the middle of a function spoils nothing.
 */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef uint64_t qemu_plugin_id_t;
struct qemu_plugin_tb;
struct qemu_plugin_insn;

extern void qemu_plugin_register_vcpu_tb_trans_cb(qemu_plugin_id_t id, void (*callback)(qemu_plugin_id_t, struct qemu_plugin_tb *));
extern void qemu_plugin_register_atexit_cb(qemu_plugin_id_t id, void (*callback)(qemu_plugin_id_t, void *), void *context);
extern size_t qemu_plugin_tb_n_insns(const struct qemu_plugin_tb *block);
extern struct qemu_plugin_insn *qemu_plugin_tb_get_insn(const struct qemu_plugin_tb *block, size_t index);
extern uint64_t qemu_plugin_insn_vaddr(const struct qemu_plugin_insn *instruction);
extern void qemu_plugin_register_vcpu_insn_exec_inline(struct qemu_plugin_insn *instruction, int operation, void *to, uint64_t add);

__attribute__((visibility("default"))) int qemu_plugin_version = 1;

enum { MOST_FUNCTIONS = 4096, NAME = 96, ADD_64 = 0 };

typedef struct {
    uint32_t begin;
    uint32_t end;
    char group[NAME];
    char name[NAME];
    uint64_t calls;
    uint64_t instructions;
} function;

static function functions[MOST_FUNCTIONS];
static size_t function_count;
static uint64_t outside;
static char *out_path;

static int by_begin(const void *one, const void *other) {
    const uint32_t a = ((const function *)one)->begin;
    const uint32_t b = ((const function *)other)->begin;
    return a < b ? -1 : a > b;
}

static function *find(uint32_t address) {
    size_t low = 0;
    size_t high = function_count;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        if (address < functions[middle].begin) {
            high = middle;
        } else if (address >= functions[middle].end) {
            low = middle + 1;
        } else {
            return &functions[middle];
        }
    }
    return NULL;
}

static void on_block(qemu_plugin_id_t id, struct qemu_plugin_tb *block) {
    (void)id;
    const size_t count = qemu_plugin_tb_n_insns(block);
    for (size_t i = 0; i < count; i++) {
        struct qemu_plugin_insn *instruction = qemu_plugin_tb_get_insn(block, i);
        const uint32_t address = (uint32_t)qemu_plugin_insn_vaddr(instruction);
        function *in = find(address);
        qemu_plugin_register_vcpu_insn_exec_inline(instruction, ADD_64, in != NULL ? &in->instructions : &outside, 1);
        if (in != NULL && address == in->begin) {
            qemu_plugin_register_vcpu_insn_exec_inline(instruction, ADD_64, &in->calls, 1);
        }
    }
}

static void on_exit_of_emulator(qemu_plugin_id_t id, void *context) {
    (void)id;
    (void)context;
    FILE *out = fopen(out_path, "w");
    if (out == NULL) {
        fprintf(stderr, "count: cannot write %s\n", out_path);
        return;
    }
    for (size_t i = 0; i < function_count; i++) {
        const function *f = &functions[i];
        if (f->instructions > 0) {
            fprintf(out, "%s %s %" PRIu64 " %" PRIu64 "\n", f->group, f->name, f->calls, f->instructions);
        }
    }
    fprintf(out, "outside - 0 %" PRIu64 "\n", outside);
    fclose(out);
}

static int read_map(const char *path) {
    FILE *in = fopen(path, "r");
    if (in == NULL) {
        fprintf(stderr, "count: cannot read %s\n", path);
        return -1;
    }
    uint32_t begin;
    uint32_t size;
    function *f = &functions[0];
    while (function_count < MOST_FUNCTIONS && fscanf(in, "%" SCNx32 " %" SCNx32 " %95s %95s", &begin, &size, f->group, f->name) == 4) {
        f->begin = begin;
        f->end = begin + size;
        function_count++;
        f++;
    }
    fclose(in);
    qsort(functions, function_count, sizeof functions[0], by_begin);
    if (function_count == 0 || function_count == MOST_FUNCTIONS) {
        fprintf(stderr, "count: %s has no function, or more than %d\n", path, MOST_FUNCTIONS - 1);
        return -1;
    }
    return 0;
}

__attribute__((visibility("default"))) int qemu_plugin_install(qemu_plugin_id_t id, const void *info, int argc, char **argv) {
    (void)info;
    const char *map = NULL;
    for (int i = 0; i < argc; i++) {
        if (strncmp(argv[i], "map=", 4) == 0) {
            map = argv[i] + 4;
        } else if (strncmp(argv[i], "out=", 4) == 0) {
            out_path = strdup(argv[i] + 4);
        }
    }
    if (map == NULL || out_path == NULL) {
        fprintf(stderr, "count: map=FILE and out=FILE are needed\n");
        return -1;
    }
    if (read_map(map) != 0) {
        return -1;
    }
    qemu_plugin_register_vcpu_tb_trans_cb(id, on_block);
    qemu_plugin_register_atexit_cb(id, on_exit_of_emulator, NULL);
    return 0;
}
