#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The same input must give the same bytes whatever the processor offers, however the code was compiled, wherever the machine stands: every stream of
# the shipped vector set (stimulus, truth, acquisition, acceptance windows, answers), and of five longer scenarios codes, truth, answers and scores.
# Ways: as built; without AVX2; without any hardware intrinsics; one compilation tier; the C library without fused instructions; one processor, and one
# told to the runtime; Turkish, German and no culture; other time zones; compiled as Debug with overflow checking, an audit of the integer code too; and
# the arm64 build under an emulator (its floating point is the emulator's, exact by IEEE 754: it proves the compiler and libraries, not a chip).
# Needs the Release build of the command, the checked one (tests/checked.sh), qemu-aarch64 with arm64's C libraries, ICU and python3.
#   bash tests/same-bits.sh [NAME...]   all ways, or only those whose name contains one of the words
# Prints a table way x hash x seconds and "N ways, N differ"; a way that cannot run counts as one that differs. Exit code 1 if any does.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
plain=artifacts/bin/SensorSim.Cli/release/sensorsim
checked=artifacts/checked/bin/SensorSim.Cli/debug/sensorsim
arm=artifacts/publish/SensorSim.Cli/release_linux-arm64/sensorsim
vectors=waveforms/vectors
ways=0
differ=0

# Every disturbance at once, and whole scenarios without and with movement.
mkdir "$work/scenarios"
cp -r waveforms/noise "$work/noise"
sed 's/^duration_s = .*/duration_s = 60/' waveforms/scenarios/all-on.toml > "$work/scenarios/all-on-minute.toml"
scenarios="$work/scenarios/all-on-minute.toml"
for name in rest-finger walking-wrist noisy-room exercise; do
    scenarios="$scenarios waveforms/scenarios/$name.toml"
done

# of_set RUN...: one line for each stream of the shipped set, "sum  case/stream", as this way makes it anew.
of_set() {
    "$@" vectors verify "$vectors" --json > "$work/set.json" 2>> "$work/errors" || return
    python3 - "$work/set.json" << 'PYTHON' 2>> "$work/errors"
import json, sys
for case in json.load(open(sys.argv[1], encoding="utf-8"))["cases"]:
    for name, value in case["streams"].items():
        print(f"{value}  {case['name']}/{name}")
PYTHON
}

# of_scenarios RUN...: one line for each file that two runs leave behind.
of_scenarios() {
    rm -rf "$work/out"
    local scenario name
    for scenario in $scenarios; do
        name=$(basename "$scenario" .toml)
        "$@" record "$scenario" --out "$work/out/$name-record" > /dev/null 2>> "$work/errors" || return
        "$@" run "$scenario" --json > "$work/out/$name.json" 2>> "$work/errors" || return
    done
    (cd "$work/out" && find . -type f | LC_ALL=C sort | xargs sha256sum)
}

# way NAME [VARIABLE=VALUE...] RUN...: runs, prints the row, and where it differs the streams that do.
way() {
    local name=$1 from got streams
    shift
    if [ $# -gt 0 ] && [ -n "${only[*]-}" ]; then
        local word wanted=
        for word in "${only[@]}"; do
            case $name in *"$word"*) wanted=yes ;; esac
        done
        [ -n "$wanted" ] || [ "$ways" = 0 ] || return 0
    fi
    ways=$((ways + 1))
    from=$(date +%s.%N)
    : > "$work/errors"
    if { of_set env "$@" && of_scenarios env "$@"; } > "$work/streams" && [ -s "$work/streams" ]; then
        got=$(sha256sum < "$work/streams" | cut -c1-16)
    else
        got=failed
    fi
    streams=$(wc -l < "$work/streams")
    [ "$ways" != 1 ] || cp "$work/streams" "$work/first"
    printf '%-44s %-16s %4s streams %7.1f s\n' "$name" "$got" "$streams" "$(awk -v a="$from" -v b="$(date +%s.%N)" 'BEGIN { print b - a }')"
    if [ "$got" = failed ] || ! cmp -s "$work/first" "$work/streams"; then
        differ=$((differ + 1))
        head -n 5 "$work/errors"
        diff "$work/first" "$work/streams" | grep '^[<>]' | awk '{ print "    differs: " $3 }' | LC_ALL=C sort -u | head -n 10
    fi
}

only=("$@")
fused=glibc.cpu.hwcaps=-AVX2_Usable,-FMA_Usable,-AVX2,-FMA
way "as built" "$plain"
way "no AVX2" DOTNET_EnableAVX2=0 "$plain"
way "no hardware intrinsics" DOTNET_EnableHWIntrinsic=0 "$plain"
way "one compilation tier" DOTNET_TieredCompilation=0 "$plain"
way "C library without fused instructions" GLIBC_TUNABLES="$fused" "$plain"
way "one processor" taskset -c 0 "$plain"
way "one processor told to the runtime" DOTNET_PROCESSOR_COUNT=1 "$plain"
way "Turkish, and the first time zone" LC_ALL=tr_TR.UTF-8 LANG=tr_TR.UTF-8 TZ=Pacific/Kiritimati "$plain"
way "German, and a late time zone" LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 TZ=Pacific/Pago_Pago "$plain"
way "no cultures at all" DOTNET_SYSTEM_GLOBALIZATION_INVARIANT=1 LC_ALL=C TZ=UTC "$plain"
way "Debug, overflow checking on" "$checked"
way "arm64, emulated" qemu-aarch64 -L /usr/aarch64-linux-gnu "$arm"
echo "$ways ways, $differ differ"
[ "$differ" = 0 ]
