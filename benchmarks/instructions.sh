#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Machine instructions per sample, made, in the whole chain and in the library alone, by callgrind (Debian's package valgrind): the same on a busy machine
# as on an idle one. Two lengths are counted and subtracted, so that start-up and compilation drop out.
# Usage: bash benchmarks/instructions.sh   (after dotnet build -c Release benchmarks/SensorSim.Benchmarks)
set -euo pipefail
cd "$(dirname "$0")/.."
program=artifacts/bin/SensorSim.Benchmarks/release/SensorSim.Benchmarks
short=300 long=900
command -v valgrind > /dev/null || { echo "valgrind is missing; on Debian: apt-get install valgrind" >&2; exit 3; }
[ -x "$program" ] || { echo "$program is missing; build it first: dotnet build -c Release benchmarks/SensorSim.Benchmarks" >&2; exit 3; }

# Compiled once and for good, so that both lengths run the same code.
export DOTNET_TieredCompilation=0

count() { # input, part, seconds
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$program" once "$1" "$2" "$3" 2>&1 > /dev/null |
        sed -n 's/.*Collected : *\([0-9]*\).*/\1/p'
}

library() { # input, rounds
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$program" detect "$1" $short "$2" 2>&1 > /dev/null |
        sed -n 's/.*Collected : *\([0-9]*\).*/\1/p'
}

echo "| input | part | instructions per sample |"
echo "|---|---|--:|"
for input in rest on; do
    for part in make all; do
        a=$(count $input $part $short)
        b=$(count $input $part $long)
        echo "$input $part $a $b" | awk -v n=$(((long - short) * 700)) '{ printf "| %s | %s | %.1f |\n", $1, $2, ($4 - $3) / n }'
    done
    # The library alone: the second round over the same five minutes.
    a=$(library $input 1)
    b=$(library $input 2)
    echo "$input $a $b" | awk -v n=$((short * 700)) '{ printf "| %s | library | %.1f |\n", $1, ($3 - $2) / n }'
done
