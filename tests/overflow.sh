#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The integer code under overflow checking: the tests of the library with every plain + - * and conversion checked (tests/other-builds.sh builds them),
# those that feed it rails, noise and any status. A sum that wraps where nobody meant it to ends a test with an exception.
# Lanes are never checked, whatever the compiler is told: without them the plain sums beside them run, which are those of the C.
# tests/same-bits.sh does the same for the shipped vectors and whole scenarios.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
checked=artifacts/checked/bin/SensorSim.Detectors.Tests/debug/SensorSim.Detectors.Tests
[ -x "$checked" ] || { echo "$checked is missing; build it first: bash tests/other-builds.sh" >&2; exit 3; }
DOTNET_EnableHWIntrinsic=0 "$checked" --no-ansi --progress off \
    --filter "(FullyQualifiedName~LibraryExtremesTests|FullyQualifiedName~Take_RandomCuts|FullyQualifiedName~HostileStreamTests)&TestCategory!=Slow"
