#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A scenario into an emulated board, in one command: builds the firmware, starts the emulator, replays the scenario into it through a
# pseudo-terminal, compares each answer with the C# library's, counts instructions, and ends the emulator.
#
#   bash src/firmware/boards/try.sh [m3|m0] [SCENARIO] [more options of replay]
#
# Needs gcc-arm-none-eabi, libnewlib-arm-none-eabi (one header), qemu-system-arm, gcc, make (Debian packages of these names) and the built command.
set -eu
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../../.." && pwd)
board=${1:-m3}
scenario=${2:-$root/waveforms/scenarios/rest-finger.toml}
shift $(($# < 2 ? $# : 2))
program=$root/artifacts/bin/SensorSim.Cli/release/sensorsim
build=$root/artifacts/firmware/boards/library

for pair in "arm-none-eabi-gcc gcc-arm-none-eabi" "qemu-system-arm qemu-system-arm" "gcc gcc" "make make"; do
    read -r command package <<< "$pair"
    command -v "$command" > /dev/null || { echo "try: $command is missing; on Debian: apt-get install $package" >&2; exit 3; }
done
[ -x "$program" ] || { echo "try: the command is not built; build it: dotnet build -c Release" >&2; exit 2; }

make -s -j"$(nproc)" -C "$here" "$board" > /dev/null
work=$(mktemp -d)
emulator=
finish() {
    [ -z "$emulator" ] || { kill "$emulator" 2> /dev/null && wait "$emulator" 2> /dev/null; } || true
    rm -rf "$work"
}
trap finish EXIT
bash "$here/run-board.sh" "$board" --count "$work/counts" > "$work/pty" &
emulator=$!
for _ in $(seq 200); do
    [ ! -s "$work/pty" ] || break
    kill -0 "$emulator" 2> /dev/null || break
    sleep 0.05
done
[ -s "$work/pty" ] || { echo "try: the board did not start" >&2; exit 3; }

code=0
"$program" replay "$scenario" --link "$(head -n 1 "$work/pty")" --as-fast-as-possible --expect bit-exact "$@" > "$work/result" || code=$?
cat "$work/result"
kill "$emulator" 2> /dev/null || true
wait "$emulator" 2> /dev/null || true
emulator=

if [ -s "$work/counts" ]; then
    samples=$(awk '/samples_taken/ { n += $NF } END { print n + 0 }' "$work/result")
    echo
    echo "instructions executed by the emulated board ($(arm-none-eabi-gcc -dumpfullversion -dumpversion | head -n 1), -O2); instructions, not cycles"
    awk -v samples="$samples" -f "$here/count/table.awk" "$work/counts"
    arm-none-eabi-size "$build/board-$board.elf" | awk 'NR == 2 { print "flash " $1 + $2 " bytes; memory " $2 + $3 " bytes beside the stack" }'
fi
exit "$code"
