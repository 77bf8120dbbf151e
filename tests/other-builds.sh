#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The builds that tests/same-bits.sh and tests/overflow.sh need beside the usual one: Debug with every plain + - * and conversion of integers
# checked (the command and the tests of detectors; artifacts/checked), and the command compiled ahead of time, for this kind of machine as a user
# keeps it and for arm64 with its runtime (artifacts/publish).
set -eu
cd "$(dirname "${BASH_SOURCE[0]}")/.."
quiet=(--nologo -v quiet --tl:off -nodeReuse:false -p:UseSharedCompilation=false)
dotnet build tests/checked.slnf -c Debug "${quiet[@]}" -p:CheckForOverflowUnderflow=true -p:ArtifactsPath="$PWD/artifacts/checked" \
    -p:RunAnalyzers=false -p:EnforceCodeStyleInBuild=false
# With the settings of the usual build, so that what that made is taken and only the command itself is built again.
dotnet publish src/SensorSim.Cli -c Release -r linux-x64 "${quiet[@]}"
dotnet publish src/SensorSim.Cli -c Release -r linux-arm64 --self-contained "${quiet[@]}"
bash tests/arm64-openssl.sh
