#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Draws the pictures of the docs anew: those of the README, a strip for every rhythm, a picture for every disturbance. Needs the command built in Release.
# Usage, from any folder: bash docs/images/make.sh
set -eu
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
command=artifacts/bin/SensorSim.Cli/release/sensorsim
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$command" run waveforms/scenarios/rest-finger.toml --out "$work/rest" > /dev/null 2>&1
cp "$work/rest/signals.png" docs/images/rest-finger-signals.png
cp "$work/rest/errors.png" docs/images/rest-finger-errors.png
"$command" sweep waveforms/studies/muscle-noise.toml --out "$work/muscle" > /dev/null 2>&1
cp "$work/muscle/report/figures/curves_1.png" docs/images/muscle-noise-curves.png
mkdir -p docs/images/rhythms
for scenario in waveforms/scenarios/rhythms/*.toml; do
    name=$(basename "$scenario" .toml)
    "$command" run "$scenario" --out "$work/$name" > /dev/null 2>&1
    python3 docs/images/palette.py "$work/$name/strip.png" "docs/images/rhythms/$name.png"
done
mkdir -p docs/images/disturbances
for scenario in waveforms/scenarios/disturbances/*.toml; do
    name=$(basename "$scenario" .toml)
    # What acts on all lights, the dark slot or the acceleration is seen beside them; all else on the strip.
    case $name in
        light-daylight | light-crosstalk | light-lift-offs | light-artefact-unexplained | acceleration-* | data-buffer-overflow | data-sampling-jitter | two-devices)
            picture=signals ;;
        *) picture=strip ;;
    esac
    "$command" run "$scenario" --out "$work/$name" > /dev/null 2>&1
    python3 docs/images/palette.py "$work/$name/$picture.png" "docs/images/disturbances/$name.png"
done
