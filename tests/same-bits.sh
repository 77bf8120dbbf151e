#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The same scenario must give the same bytes (codes, truth, answers, scores) whatever the processor offers, however the code was compiled, and with
# overflow checking on as an audit of the integer code. Needs the Release build of the command; builds the checked one itself.
# Prints one line per way and "N ways, N differ"; exit code 1 if any differs or fails.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
plain=artifacts/bin/SensorSim.Cli/release/sensorsim
checked=artifacts/checked/bin/SensorSim.Cli/release/sensorsim
ways=0
differ=0
first=

# Every disturbance at once, a minute of it.
mkdir "$work/scenarios"
cp -r waveforms/noise "$work/noise"
sed 's/^duration_s = .*/duration_s = 60/' waveforms/scenarios/all-on.toml > "$work/scenarios/all-on-minute.toml"
scenarios="$work/scenarios/all-on-minute.toml"
for name in rest-finger walking-wrist noisy-room exercise; do
    scenarios="$scenarios waveforms/scenarios/$name.toml"
done

# hash_of PROGRAM: one sum over everything that two runs leave behind, pictures aside; empty when one of them fails.
hash_of() {
    rm -rf "$work/out"
    local scenario name
    for scenario in $scenarios; do
        name=$(basename "$scenario" .toml)
        "$1" record "$scenario" --out "$work/out/$name-record" > /dev/null 2>> "$work/errors" || return
        "$1" run "$scenario" --json > "$work/out/$name.json" 2>> "$work/errors" || return
    done
    (cd "$work/out" && find . -type f | LC_ALL=C sort | xargs sha256sum | sha256sum | cut -c1-16)
}

# way NAME [VARIABLE=VALUE] PROGRAM
way() {
    local name=$1 got
    shift
    ways=$((ways + 1))
    got=$(if [ $# = 2 ]; then export "$1"; shift; fi; hash_of "$1")
    first=${first:-$got}
    if [ -z "$got" ] || [ "$got" != "$first" ]; then
        differ=$((differ + 1))
    fi
    printf '%-44s %s\n' "$name" "${got:-failed}"
}

dotnet build src/SensorSim.Cli -c Release --nologo -v quiet --tl:off -nodeReuse:false -p:UseSharedCompilation=false \
    -p:CheckForOverflowUnderflow=true -p:ArtifactsPath="$PWD/artifacts/checked" || exit 1
way "as built" "$plain"
way "no AVX2" DOTNET_EnableAVX2=0 "$plain"
way "no hardware intrinsics" DOTNET_EnableHWIntrinsic=0 "$plain"
way "one compilation tier" DOTNET_TieredCompilation=0 "$plain"
way "C library without fused instructions" GLIBC_TUNABLES=glibc.cpu.hwcaps=-AVX2_Usable,-FMA_Usable,-AVX2,-FMA "$plain"
way "another time zone" TZ=Pacific/Kiritimati "$plain"
way "overflow checking on" "$checked"
[ "$differ" = 0 ] || cat "$work/errors"
echo "$ways ways, $differ differ"
[ "$differ" = 0 ]
