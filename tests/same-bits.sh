#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The same input must give the same bytes whatever the processor offers, however the code was compiled, wherever the machine stands: every stream of
# the shipped vector set (stimulus, truth, acquisition, acceptance windows, answers); codes, truth, answers and scores of a minute with every
# disturbance at once; and on some ways the same of four longer scenarios.
# Needs the Release build of the command, the builds of tests/other-builds.sh, qemu-aarch64 with the C libraries of arm64, ICU and python3.
#   bash tests/same-bits.sh
# Prints a table way x hash x seconds, what differs, and "N ways, N differ"; a way that cannot run counts as one that differs. Exit code 1 if any does.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
work=$(mktemp -d)
cultured=artifacts/cultured
trap 'rm -rf "$work" "$cultured"' EXIT
plain=artifacts/bin/SensorSim.Cli/release/sensorsim
checked=artifacts/checked/bin/SensorSim.Cli/debug/sensorsim
ahead=artifacts/publish/SensorSim.Cli/release_linux-x64/sensorsim
arm=artifacts/publish/SensorSim.Cli/release_linux-arm64/sensorsim
vectors=waveforms/vectors
ways=0
differ=0

mkdir "$work/scenarios"
cp -r waveforms/noise "$work/noise"
sed 's/^duration_s = .*/duration_s = 60/' waveforms/scenarios/all-on.toml > "$work/scenarios/all-on-minute.toml"
long=
for name in rest-finger walking-wrist noisy-room exercise; do
    long="$long waveforms/scenarios/$name.toml"
done

# The command sets no culture aside in its own settings: in this copy it takes the machine's.
rm -rf "$cultured"
cp -al "$(dirname "$plain")" "$cultured"
sed 's/"System.Globalization.Invariant": true/"System.Globalization.Invariant": false/; s/\("System.Globalization.PredefinedCulturesOnly"\): true/\1: false/' \
    "$(dirname "$plain")/sensorsim.runtimeconfig.json" > "$work/runtimeconfig"
rm "$cultured/sensorsim.runtimeconfig.json"
cp "$work/runtimeconfig" "$cultured/sensorsim.runtimeconfig.json"
grep -q 'Globalization.Invariant": false' "$work/runtimeconfig" || { echo "the settings of the command name no culture mode any more: the culture ways would prove nothing"; exit 1; }

# of_set FOLDER RUN...: one line for each stream of the shipped set, "sum  case/stream", as this way makes it anew.
of_set() {
    local folder=$1
    shift
    "$@" vectors verify "$vectors" --json > "$folder/set.json" 2>> "$folder/errors" || return
    python3 - "$folder/set.json" << 'PYTHON' 2>> "$folder/errors"
import json, sys
for case in json.load(open(sys.argv[1], encoding="utf-8"))["cases"]:
    for name, value in case["streams"].items():
        print(f"{value}  {case['name']}/{name}")
PYTHON
}

# of_scenarios FOLDER "SCENARIO..." RUN...: one line for each file that two runs leave behind.
of_scenarios() {
    local folder=$1 scenarios=$2 scenario name
    shift 2
    for scenario in $scenarios; do
        name=$(basename "$scenario" .toml)
        "$@" record "$scenario" --out "$folder/out/$name-record" > /dev/null 2>> "$folder/errors" || return
        "$@" run "$scenario" --json > "$folder/out/$name.json" 2>> "$folder/errors" || return
    done
    (cd "$folder/out" && find . -type f | LC_ALL=C sort | xargs sha256sum)
    rm -rf "$folder/out"
}

hash_of() { if [ -s "$1" ]; then sha256sum < "$1" | cut -c1-12; else echo "failed"; fi; }

# run_way FOLDER whole|short RUN...: leaves the lines in $folder/set, minute and long, and the seconds.
run_way() {
    local folder=$1 length=$2 from
    shift 2
    from=$(date +%s.%N)
    of_set "$folder" "$@" > "$folder/set" || : > "$folder/set"
    of_scenarios "$folder" "$work/scenarios/all-on-minute.toml" "$@" > "$folder/minute" || : > "$folder/minute"
    if [ "$length" = whole ]; then
        of_scenarios "$folder" "$long" "$@" > "$folder/long" || : > "$folder/long"
    fi
    awk -v a="$from" -v b="$(date +%s.%N)" 'BEGIN { printf "%.1f", b - a }' > "$folder/seconds"
}

# way whole|short NAME [VARIABLE=VALUE...] RUN...: two at a time.
way() {
    local length=$1 folder
    ways=$((ways + 1))
    folder=$work/way-$ways
    mkdir -p "$folder/out"
    echo "$2" > "$folder/name"
    shift 2
    while [ "$(jobs -pr | wc -l)" -ge 2 ]; do
        wait -n || true
    done
    run_way "$folder" "$length" env "$@" &
}

# report FOLDER: its row; beneath it what differs from the first way, or why it failed.
report() {
    local folder=$1 part is_same=yes row
    row=$(printf '%-40s' "$(cat "$folder/name")")
    for part in set minute long; do
        if [ ! -e "$folder/$part" ]; then
            row="$row  -           "
            continue
        fi
        row="$row  $(hash_of "$folder/$part")"
        [ -s "$folder/$part" ] && cmp -s "$work/way-1/$part" "$folder/$part" || is_same=no
    done
    echo "$row  $(printf '%7s s' "$(cat "$folder/seconds")")"
    [ "$is_same" = no ] || return 0
    differ=$((differ + 1))
    head -n 5 "$folder/errors"
    for part in set minute long; do
        [ ! -s "$folder/$part" ] || diff "$work/way-1/$part" "$folder/$part" | sed -n 's/^[<>] [0-9a-f]*  /    differs: /p' | LC_ALL=C sort -u | head -n 5
    done
}

# qemu-aarch64 7.2 keeps translated code until the page that it came from is written: the runtime writes code through a second mapping of its pages
# (W^X), which the emulator does not see, and then runs old code and crashes. With one mapping the runs are steady; what is computed is the same.
emulated=(qemu-aarch64 -L /usr/aarch64-linux-gnu -E "LD_LIBRARY_PATH=$PWD/artifacts/arm64/usr/lib/aarch64-linux-gnu" -E DOTNET_EnableWriteXorExecute=0)
fused=glibc.cpu.hwcaps=-AVX2_Usable,-FMA_Usable,-AVX2,-FMA
# The slowest first, beside the others.
way whole "as built" "$plain"
way short "arm64, emulated" "${emulated[@]}" "$arm"
way whole "Debug, overflow checking on" "$checked"
way short "overflow checking on, no AVX2" DOTNET_EnableAVX2=0 "$checked"
way whole "compiled ahead" "$ahead"
way whole "no hardware intrinsics" DOTNET_EnableHWIntrinsic=0 "$plain"
way short "compiled ahead, no hardware intrinsics" DOTNET_EnableHWIntrinsic=0 "$ahead"
way short "compiled ahead, no AVX2" DOTNET_EnableAVX2=0 "$ahead"
way short "no AVX-512" DOTNET_EnableAVX512=0 "$plain"
way short "no AVX2" DOTNET_EnableAVX2=0 "$plain"
way short "one compilation tier" DOTNET_TieredCompilation=0 "$plain"
way whole "C library without fused instructions" GLIBC_TUNABLES="$fused" "$plain"
way short "one processor" taskset -c 0 "$plain"
way short "one processor told to the runtime" DOTNET_PROCESSOR_COUNT=1 "$plain"
way short "two processors told to the runtime" DOTNET_PROCESSOR_COUNT=2 "$plain"
way short "Turkish, first time zone of the day" LC_ALL=tr_TR.UTF-8 TZ=Pacific/Kiritimati "$cultured/sensorsim"
way short "German, last time zone of the day" LC_ALL=de_DE.UTF-8 TZ=Pacific/Pago_Pago "$cultured/sensorsim"
way short "no culture" LC_ALL=C TZ=UTC "$plain"
wait

printf '%-40s  %-12s  %-12s  %-12s\n' "way" "vectors" "all on" "long"
for folder in $(seq -f "$work/way-%g" "$ways"); do
    report "$folder"
done
echo "$ways ways, $differ differ"
[ "$differ" = 0 ]
