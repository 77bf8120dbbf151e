#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Runs an emulated board with its serial port on a pseudo-terminal, prints the path of that, and ends with the process that started it.
#
#   bash run-board.sh m3|m0 [--elf FILE] [--pty-link PATH] [--count FILE] [--icount] [--core N]
#
#   --elf FILE       firmware (default: what `make` has built with the library)
#   --pty-link PATH  a link with this name to the pseudo-terminal, removed at the end
#   --count FILE     count instructions by function; written to FILE when the board ends (count/count.c)
#   --icount         the board's clock is its count of instructions: each lasts 1024 ns of its time, so that its timer counts instructions
#   --core N         run the emulator on this core of the machine only (default: the last one); two cores make it slower, not faster
#
# The board ends when this script is ended (SIGTERM, SIGINT) or when its parent ends.
set -eu
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
board=${1:-}
variant=()
case $board in
    m3) machine=mps2-an385 ;;
    m0) machine=microbit variant=(-global nrf51-soc.sram-size=32768) ;; # the part with 32 kB of RAM
    *) echo "run-board: \"$board\" is no board; it must be m3 or m0" >&2; exit 2 ;;
esac
shift
elf=$here/../../../artifacts/firmware/boards/library/board-$board.elf
link= count= core=$(($(nproc) - 1)) icount=
while [ $# -gt 0 ]; do
    case $1 in
        --icount) icount=yes; shift; continue ;;
        --elf | --pty-link | --count | --core) [ $# -ge 2 ] || { echo "run-board: $1 needs a value" >&2; exit 2; } ;;
        *) echo "run-board: \"$1\" is no option; see the head of the script" >&2; exit 2 ;;
    esac
    case $1 in
        --elf) elf=$2 ;;
        --pty-link) link=$2 ;;
        --count) count=$2 ;;
        --core) core=$2 ;;
    esac
    shift 2
done
command -v qemu-system-arm > /dev/null || { echo "run-board: qemu-system-arm is missing; on Debian: apt-get install qemu-system-arm" >&2; exit 3; }
[ -f "$elf" ] || { echo "run-board: there is no $elf; build it: make -C $here $board" >&2; exit 2; }

work=$(mktemp -d)
emulator=
finish() {
    trap - EXIT
    if [ -n "$emulator" ] && kill "$emulator" 2> /dev/null; then
        wait "$emulator" 2> /dev/null || true
    fi
    [ -z "$link" ] || rm -f "$link"
    rm -rf "$work"
}
trap finish EXIT
trap 'exit 0' TERM INT HUP

arguments=(-M "$machine" ${variant[@]+"${variant[@]}"} -kernel "$elf" -display none -monitor none -serial pty)
if [ -n "$icount" ]; then
    arguments+=(-icount "shift=10,sleep=off")
fi
if [ -n "$count" ]; then
    # The counter is built where the firmware lies; it takes a second and needs no headers of the emulator.
    "${CC:-gcc}" -O2 -Wall -Wextra -Werror -shared -fPIC "$here/count/count.c" -o "$work/count.so"
    arguments+=(-plugin "$work/count.so,map=${elf%.elf}.map,out=$count")
fi
run=()
if command -v taskset > /dev/null; then
    run=(taskset -c "$core")
fi
"${run[@]}" qemu-system-arm "${arguments[@]}" > "$work/out" 2> "$work/err" < /dev/null &
emulator=$!

pty=
for _ in $(seq 200); do
    pty=$(sed -n 's/^char device redirected to \([^ ]*\) .*/\1/p' "$work/out" "$work/err" | head -n 1)
    [ -z "$pty" ] || break
    kill -0 "$emulator" 2> /dev/null || break
    sleep 0.05
done
if [ -z "$pty" ]; then
    echo "run-board: the emulator did not start: $(head -n 1 "$work/err")" >&2
    exit 3
fi
if [ -n "$link" ]; then
    ln -sfn "$pty" "$link"
    pty=$link
fi
echo "$pty"

# Stay until the emulator ends or the parent is gone; a sleep in the background lets the traps act at once.
parent=$PPID
while kill -0 "$emulator" 2> /dev/null && kill -0 "$parent" 2> /dev/null; do
    sleep 0.2 &
    wait $! || true
done
if ! kill -0 "$emulator" 2> /dev/null; then
    emulator=
    grep -v 'terminating on signal' "$work/err" >&2 || true
    exit 3
fi
