#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The C headers of a vector set, as a firmware uses them: every header compiles without a warning for the host (gcc, clang) and for the cores of both
# emulated boards; fed from it, the C library on the emulated board prints what it prints on the host. That the host's answers are the expected ones of
# the set is a test of tests/SensorSim.Firmware.Tests. Needs gcc, clang, gcc-arm-none-eabi, qemu-system-arm.
#   bash tests/firmware/vectors.sh [SET]     a folder with vector headers (default: waveforms/vectors)
# On the boards run: every header on the M3, the smallest on the M0.
set -eu
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
set_folder=${1:-waveforms/vectors}
firmware=src/firmware
boards=$firmware/boards
here=tests/firmware/vectors
root=$PWD
build=$PWD/artifacts/firmware/boards/library
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

warn=(-std=c99 -Wall -Wextra -Werror -pedantic -Wconversion -Wshadow -Wstrict-prototypes)
include=(-I"$firmware/library" -I"$firmware/adapter" -I"$here" -I"$boards/common")
m3=(-mcpu=cortex-m3 -mthumb)
m0=(-mcpu=cortex-m0 -mthumb)
mapfile -t headers < <(find "$(realpath "$set_folder")" -name '*.h' -printf '%s %p\n' | sort -n | cut -d' ' -f2-)
[ "${#headers[@]}" -gt 0 ] || { echo "$set_folder: holds no C header" >&2; exit 1; }

# 1. By itself, with nothing before it, for every core.
for header in "${headers[@]}"; do
    printf '#include "%s"\nint32_t vector_size(void);\nint32_t vector_size(void) { return SENSORSIM_VECTOR_LAST.channels[0].count; }\n' "$header" > "$work/alone.c"
    gcc "${warn[@]}" -c "$work/alone.c" -o "$work/alone.o"
    clang "${warn[@]}" -c "$work/alone.c" -o "$work/alone.o"
    arm-none-eabi-gcc "${warn[@]}" "${m3[@]}" -ffreestanding -Os -c "$work/alone.c" -o "$work/alone.o"
    arm-none-eabi-gcc "${warn[@]}" "${m0[@]}" -ffreestanding -Os -c "$work/alone.c" -o "$work/alone.o"
done
# All of them in one file.
for header in "${headers[@]}"; do
    printf '#include "%s"\n' "$header"
done > "$work/all.c"
gcc "${warn[@]}" -Wno-unused-const-variable -c "$work/all.c" -o "$work/alone.o"
echo "${#headers[@]} headers compile by gcc, clang and for Cortex-M0 and M3, each alone and all together"

gcc "${warn[@]}" "${include[@]}" -I"$firmware/link" -fsyntax-only tests/firmware/same_items.c

# 2. The library: for the boards the objects of their firmware, for the host compiled here; the adapter for each.
make -s -j2 -C "$boards" BUILD="$build" > /dev/null
mkdir "$work/host"
(cd "$work/host" && find "$root/$firmware/library" -name '*.c' -print0 | xargs -0 -n 40 -P "$(nproc)" gcc "${warn[@]}" -I"$root/$firmware/library" -Os -c)
gcc "${warn[@]}" "${include[@]}" -Os -c "$firmware/adapter/library_adapter.c" -o "$work/host/library_adapter.o"

# run_board BOARD HEADER: links start-up code, library and header, runs them in the emulator; the text is in $work/BOARD.txt.
run_board() {
    local board=$1 header=$2 machine=mps2-an385 variant=() core=("${m3[@]}") status=0
    [ "$board" = m3 ] || { machine=microbit; variant=(-global nrf51-soc.sram-size=32768); core=("${m0[@]}"); }
    # Attributes and inline assembly are the compiler's own.
    arm-none-eabi-gcc -std=gnu99 -Wall -Wextra -Werror -Wconversion "${core[@]}" -Os -ffreestanding -ffunction-sections -fdata-sections \
        -fno-tree-loop-distribute-patterns -fno-common "${include[@]}" "-DVECTOR_HEADER=\"$header\"" \
        -nostdlib -nostartfiles -Wl,--gc-sections -Wl,--fatal-warnings -L"$boards/common" -Wl,--defsym=SS_LEAST_STACK=6336 \
        -T "$boards/board-$board/board.ld" "$here/vector_answers.c" "$here/vector_out_board.c" "$boards/common/start.c" "$boards/common/memory.c" \
        "$firmware/adapter/library_adapter.c" $(find "$build/$board/firmware/library" -name '*.o') -lgcc -o "$work/$board.elf"
    timeout 120 qemu-system-arm -M "$machine" ${variant[@]+"${variant[@]}"} -kernel "$work/$board.elf" -display none -monitor none -serial none \
        -chardev "file,id=out,path=$work/$board.txt" -semihosting-config enable=on,target=native,chardev=out < /dev/null > "$work/emulator" 2>&1 || status=$?
    [ "$status" = 0 ] || { cat "$work/emulator"; tail -n 3 "$work/$board.txt"; echo "$header on the $board: ended with $status" >&2; exit 1; }
}

for header in "${headers[@]}"; do
    gcc "${warn[@]}" "${include[@]}" "-DVECTOR_HEADER=\"$header\"" -Os -o "$work/program" "$here/vector_answers.c" "$here/vector_out_host.c" "$work/host"/*.o
    "$work/program" > "$work/host.txt" || { tail -n 1 "$work/host.txt"; echo "$header: failed on the host" >&2; exit 1; }
    answers=$(sed -n 's/^done //p' "$work/host.txt")
    [ "$answers" -gt 0 ] || { echo "$header: no answer" >&2; exit 1; }
    boards_run="m3"
    [ "$header" != "${headers[0]}" ] || boards_run="m3 m0"
    for board in $boards_run; do
        run_board "$board" "$header"
        cmp "$work/host.txt" "$work/$board.txt" || { diff "$work/host.txt" "$work/$board.txt" | head -n 4; echo "$header: the $board answers otherwise than the host" >&2; exit 1; }
    done
    echo "${header#"$root/"}: $answers answers, the same on the host and on $boards_run; $(arm-none-eabi-size "$work/m3.elf" | awk 'NR == 2 { print $1 + $2 }') bytes of flash"
done
