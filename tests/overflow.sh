#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The integer code under overflow checking: builds the tests of the library with every plain + - * and conversion checked, and runs those
# that feed it rails, noise and any status. A sum that wraps where nobody meant it to ends a test with an exception.
# tests/same-bits.sh does the same for whole scenarios.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
dotnet build tests/SensorSim.Detectors.Tests -c Release --nologo -v quiet --tl:off -nodeReuse:false -p:UseSharedCompilation=false \
    -p:CheckForOverflowUnderflow=true -p:ArtifactsPath="$PWD/artifacts/checked" || exit 1
artifacts/checked/bin/SensorSim.Detectors.Tests/release/SensorSim.Detectors.Tests --no-ansi --progress off \
    --filter "(FullyQualifiedName~LibraryExtremesTests|FullyQualifiedName~Take_RandomCuts|FullyQualifiedName~HostileStreamTests)&TestCategory!=Slow"
