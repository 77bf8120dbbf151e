#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Builds everything once in Release (warnings are errors) and runs every test but the long ones of tests/nightly.sh.
# Usage, from any folder: bash tests/all.sh
# Ends with the line "N passed, N failed"; exit code 1 if anything failed.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
. tests/install.sh
. tests/run.sh

# The shipped vectors against the list of versions, after what finds a change.
versions() { python3 -B -m unittest tests/vectors/check_versions.py && python3 -B tests/vectors/versions.py; }

start=$(date +%s.%N)
need_all || failed=$((failed + 1))
need_dotnet || failed=$((failed + 1))
# Tests that wait for deadlines of links, boards and programs; the longest of the others first.
timed="SensorSim.Detectors.Tests SensorSim.Links.Tests SensorSim.Cli.Tests"
others=$(for project in $(first "SensorSim.Firmware.Tests SensorSim.Sensing.Tests SensorSim.Body.Tests"); do
    case " $timed " in *" $project "*) ;; *) echo "$project" ;; esac
done)
if [ "$failed" = 0 ] && build; then
    run_projects "TestCategory!=Slow" "$timed" "$others"

    if phase "Debug with overflow checking, arm64" bash tests/other-builds.sh; then
        phase "same bits every way" bash tests/same-bits.sh && passed=$((passed + 1))
        phase "overflow checking" bash tests/overflow.sh && passed=$((passed + 1))
    fi

    phase "firmware on emulated boards" bash tests/firmware/board.sh && passed=$((passed + 1))
    phase "vector headers on emulated boards" bash tests/firmware/vectors.sh && passed=$((passed + 1))
    phase "versions of the shipped vectors" versions && passed=$((passed + 1))
    phase "packages used as packages" bash tests/packages.sh && passed=$((passed + 1))

    if is_root; then
        phase "a study on a cluster" bash tests/cluster/array.sh && passed=$((passed + 1))
    else
        echo "a study on a cluster: left out, it starts a scheduler of its own and needs root"
        skipped=$((skipped + 1))
    fi

    # CI also tries the plain command on one project. With the runner of global.json the SDK's syntax is --project, --solution or
    # nothing (the solution of this folder); a bare path is refused, and outside the repository global.json is not seen.
    # Its tests were counted above, so only a failure counts here.
    if [ "${CI:-}" = true ]; then
        phase "dotnet test" dotnet test --project tests/SensorSim.Architecture.Tests -c Release --no-build --no-ansi --progress off
    fi
fi

printf '%-36s %8s s\n' "all" "$(seconds_since "$start")"
finish
