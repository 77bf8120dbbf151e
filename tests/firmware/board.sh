#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The firmware: compiles it with every compiler for every core, checks the session, runs both emulated boards, replays two scenarios into each
# (every answer must be the C# library's) and compares the instructions executed with tests/firmware/instructions-*.txt.
# Needs gcc, clang, gcc-arm-none-eabi with libnewlib-arm-none-eabi (one header), qemu-system-arm, make and the built command.
#   bash tests/firmware/board.sh            checks
#   bash tests/firmware/board.sh --renew    writes the files of instructions anew, after a change that was meant
set -eu
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
firmware=src/firmware
boards=$firmware/boards
program=$PWD/artifacts/bin/SensorSim.Cli/release/sensorsim
build=$PWD/artifacts/firmware/boards/library
renew=${1:-}
work=$(mktemp -d)
emulator=
stop_emulator() {
    [ -z "$emulator" ] || { kill "$emulator" 2> /dev/null && wait "$emulator" 2> /dev/null; } || true
    emulator=
}
finish() {
    stop_emulator
    rm -rf "$work"
}
trap finish EXIT

# 1. Session, codec and boards' common files by every compiler for every core. The library is compiled by the boards below and by its own tests.
warn=(-std=c99 -Wall -Wextra -Werror -Wconversion -pedantic -ffreestanding)
include=(-I"$firmware/link" -I"$firmware/session" -I"$firmware/library" -I"$boards/common" -Idocs/examples/process/c)
compile() {
    local source
    for source in "$firmware"/session/*.c "$firmware"/link/sensorsim_link*.c docs/examples/process/c/threshold.c; do
        "$@" "${warn[@]}" "${include[@]}" -O2 -c "$source" -o "$work/object.o"
    done
}
# clang has no C library for these cores of its own: its header is that which the other compiler uses.
headers=$(dirname "$(echo '#include <string.h>' | arm-none-eabi-gcc -E - | sed -n 's/^# 1 "\(.*string\.h\)".*/\1/p' | head -n 1)")
count=0
for core in cortex-m0 cortex-m0plus cortex-m3 cortex-m4; do
    compile arm-none-eabi-gcc "-mcpu=$core" -mthumb
    compile clang --target=arm-none-eabi "-mcpu=$core" -mthumb -isystem "$headers"
    count=$((count + 2))
done
compile gcc
compile clang
echo "session and codec: compiled $((count + 2)) ways without a warning"

# 2. The session by itself, with little room and with much, under the sanitizers; and both programs of the process example.
for samples in 8 256; do
    gcc -std=c99 -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -Wall -Wextra -Werror "-DSS_BOARD_SAMPLES=$samples" \
        -I"$firmware/link" -I"$firmware/session" tests/firmware/session_check.c "$firmware"/session/board_*.c "$firmware"/link/sensorsim_link*.c \
        -o "$work/session-check"
    "$work/session-check" 1 "${SESSION_ROUNDS:-40}"
done
gcc -std=c99 -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -Wall -Wextra -Werror -Wno-unused-function \
    -I"$firmware/link" -I"$firmware/session" -I"$firmware/library" tests/firmware/library_check.c "$firmware"/session/library_*.c \
    "$firmware"/link/sensorsim_link*.c $(find "$firmware/library" -name '*.c') -o "$work/library-check"
"$work/library-check" docs/link-protocol.md
make -s -C docs/examples/process/c BUILD="$work/programs"
# A detector of one's own: the example under the two names that a file of one's own defines.
cat > "$work/mine.c" << EOF
#include "$PWD/docs/examples/process/c/threshold.c"
static threshold state;
const ss_board_detector ss_own_detector = {
    "mine 1.0", (uint32_t)sizeof(threshold), begin, setup, NULL, start, take, flush, answer, NULL, NULL, NULL,
};
void *const ss_own_context = &state;
EOF
make -s -C docs/examples/process/c own DETECTOR="$work/mine.c" BUILD="$work/programs"
make -s -C "$boards" DETECTOR="$work/mine.c" BUILD="$work/own" > "$work/own-sizes"
for board in m3 m0; do
    grep -q "$board" "$work/own-sizes" && [ -s "$work/own/board-$board.elf" ] || { echo "$board: was not built with a detector of one's own" >&2; exit 1; }
done
grep -q 'mine 1.0' "$work/programs/own" || { echo "the program with a detector of one's own has another in it" >&2; exit 1; }

# 3. Both boards.
make -s -j2 -C "$boards" > "$work/sizes"
version=$(arm-none-eabi-gcc -dumpfullversion)

# wait_for FILE: until the board has told its port.
wait_for() {
    local i
    for i in $(seq 400); do
        [ ! -s "$1" ] || return 0
        kill -0 "$emulator" 2> /dev/null || break
        sleep 0.05
    done
    echo "the board did not start" >&2
    return 1
}

# figure NAME RESULT: what the board told of itself; all indices added up.
figure() { awk -v name="$1" '$1 == name { n += $NF } END { printf "%d", n }' "$2"; }

# run_board BOARD NAME SCENARIO OPTION...: replays, leaves the counts in $work/counts and the table in $work/result.
run_board() {
    local board=$1 name=$2 scenario=$3
    shift 3
    rm -f "$work/pty" "$work/counts"
    bash "$boards/run-board.sh" "$board" --count "$work/counts" > "$work/pty" &
    emulator=$!
    wait_for "$work/pty"
    if ! "$program" replay "$scenario" --link "$(head -n 1 "$work/pty")" --as-fast-as-possible --expect bit-exact "$@" > "$work/result" 2> "$work/errors"; then
        cat "$work/result" "$work/errors" >&2
        echo "$board, $name: replay failed" >&2
        exit 1
    fi
    stop_emulator
    grep -q '^bit-exact: [1-9]' "$work/result" || { cat "$work/result" >&2; echo "$board, $name: nothing was compared" >&2; exit 1; }
    [ "$(figure answers_lost "$work/result")" = 0 ] || { echo "$board, $name: answers were lost on the board" >&2; exit 1; }
    local used have
    used=$(figure stack_used_bytes "$work/result")
    have=$(figure stack_bytes "$work/result")
    [ "$used" -gt 0 ] && [ $((used * 4)) -le $((have * 3)) ] || { echo "$board, $name: $used of $have bytes of stack were used; a quarter must be left" >&2; exit 1; }
}

# Own instructions of each stage must be the same to the last one. What the compiler's helpers and the memory functions take also depends on how
# often the handshake was repeated, so there half a per cent is allowed.
stages='^(beats|pulses|ambient|movement|readings|gate|pressure|pipeline|fixed_point|common) '
compare() {
    local golden=$1 name=$2
    awk '{ n[$1] += $4 } END { for (g in n) print g, n[g] }' "$work/counts" | LC_ALL=C sort > "$work/all"
    { grep -E "$stages" "$work/all"; grep -E '^(compiler_helpers|memory) ' "$work/all"; } | sed "s/^/$name /" >> "$work/new"
    [ "$renew" != --renew ] || return 0
    awk -v name="$name" -v golden="$golden" '
        FNR == NR { if ($1 == name) { want[$2] = $3; wanted++ } next }
        $1 == name {
            seen++
            loose = $2 == "compiler_helpers" || $2 == "memory"
            off = $3 - want[$2]; if (off < 0) { off = -off }
            if (!($2 in want) || (loose ? off > 0.005 * want[$2] : off != 0)) {
                printf "%s, %s: %s takes %d instructions; %s says %d. If that is meant: bash tests/firmware/board.sh --renew\n", golden, name, $2, $3, golden, want[$2] + 0
                bad = 1
            }
        }
        END { if (seen == 0 || seen != wanted) { print golden ": its stages are not those of the board; bash tests/firmware/board.sh --renew"; bad = 1 } exit bad }
    ' "$golden" "$work/new" >&2
}

for board in m3 m0; do
    golden=tests/firmware/instructions-$board.txt
    first="# arm-none-eabi-gcc $version -O2"
    if [ "$renew" != --renew ] && [ "$(head -n 1 "$golden")" != "$first" ]; then
        echo "$golden was made with \"$(head -n 1 "$golden" | sed 's/^# //')\", here is $version: counts of another compiler differ. Install that one, or renew: bash tests/firmware/board.sh --renew" >&2
        exit 1
    fi
    echo "$first" > "$work/new"
    for name in rest-finger walking-wrist; do
        options=()
        [ "$name" = rest-finger ] || options=(--duration-s 60)
        run_board "$board" "$name" "waveforms/scenarios/$name.toml" ${options[@]+"${options[@]}"}
        compare "$golden" "$name"
        samples=$(figure samples_taken "$work/result")
        echo
        echo "$board, $name: $(grep '^bit-exact' "$work/result"); stack $(figure stack_used_bytes "$work/result") of $(figure stack_bytes "$work/result") bytes"
        awk -v samples="$samples" -f "$boards/count/table.awk" "$work/counts"
    done
    [ "$renew" != --renew ] || cp "$work/new" "$golden"
done
echo
cat "$work/sizes"
echo "both boards give every answer of the C# library"
