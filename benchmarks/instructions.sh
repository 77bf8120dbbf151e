#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Machine instructions per stream sample, made, in the whole chain and in the library alone, by callgrind (Debian's packages valgrind and binutils): the
# same on a busy machine as on an idle one. Two lengths are counted and subtracted, so that start-up drops out.
# Counted is a program compiled ahead of time for processors with AVX2: under valgrind the runtime's own compiler cannot reach its helpers and falls back to
# code without optimisation, which says nothing. With AVX-512 the runtime picks others for the same code.
# Usage: bash benchmarks/instructions.sh [methods]   (methods: the dearest methods of each as well)
set -euo pipefail
cd "$(dirname "$0")/.."
folder=artifacts/publish/SensorSim.Counted/release_linux-x64
program=$folder/counted
for tool in valgrind objcopy clang; do
    command -v "$tool" > /dev/null || { echo "$tool is missing; on Debian: apt-get install valgrind binutils clang" >&2; exit 3; }
done

dotnet publish benchmarks/SensorSim.Counted -c Release -v quiet --nologo --tl:off -p:AheadOfTime=true >&2

# valgrind cannot read the compiler's line table; names of methods stay.
objcopy --strip-debug "$folder/SensorSim.Counted" "$program"
export DOTNET_GCHeapHardLimit=0x20000000
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

count() { # file, arguments of the program
    local file=$1
    shift
    valgrind --tool=callgrind --callgrind-out-file="$file" "$program" "$@" 2>&1 > /dev/null | sed -n 's/.*Collected : *\([0-9]*\).*/\1/p' | grep . \
        || { echo "nothing was counted: $program $*" >&2; exit 3; }
}

row() { # input, part, samples between the two, shorter, longer
    local a b
    a=$(count "$work/short" $4)
    b=$(count "$work/$1-$2" $5)
    echo "$1 $2 $a $b" | awk -v n="$3" '{ printf "| %s | %s | %.1f |\n", $1, $2, ($4 - $3) / n }'
}

echo "| input | part | instructions per sample |"
echo "|---|---|--:|"
for input in rest on; do
    row $input make $((600 * 700)) "once $input make 300" "once $input make 900"
    row $input all $((600 * 700)) "once $input all 300" "once $input all 900"

    # The library alone: further rounds over the same five minutes; 29 instructions a sample of it read the samples once before.
    row $input library $((600 * 700)) "detect $input 300 1" "detect $input 300 3"
done
row rest core $((600 * 700)) "detect rest 300 1 core" "detect rest 300 3 core"
row walk core $((600 * 700)) "detect walk 300 1 core" "detect walk 300 3 core"

if [ "${1:-}" = methods ]; then
    for part in on-make rest-core; do
        echo
        echo "$part, with its start-up:"
        callgrind_annotate "$work/$part" 2> /dev/null | grep '???:' | head -40 | sed 's/???://; s/ *\[.*//'
    done
fi
