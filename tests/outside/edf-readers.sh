#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Our EDF+ and BDF+ files read by two programs that know nothing of us, MNE and BioSig, against the codes of the same run as CSV.
# Usage, from any folder, after a Release build: bash tests/outside/edf-readers.sh
# Exit code 1 when a value is another one.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
. tests/install.sh

need_module mne python3-mne || exit 1
need save2gdf biosig-tools || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
command=artifacts/bin/SensorSim.Cli/release/sensorsim
wrong=0
record() {
    "$command" record waveforms/scenarios/rest-finger.toml --format csv,bdf --seed 7 --duration-s "$1" --out "$2" > /dev/null || exit 1
}

record 60 "$work/run"
for file in "$work"/run/*.bdf; do
    /usr/bin/python3 tests/outside/edf_mne.py "$file" "$work/run" || wrong=1
done

# The header as BioSig reads it, and each sample as text, beside it (text.a01 and so on: what stands behind the last point gives way).
# It takes 256 different annotations in a file, and of truth, some 40 a second, each differs from the others.
record 5 "$work/short"
for file in "$work"/short/*.bdf; do
    if save2gdf -f=ASCII "$file" "$work/text.hdr" > "$work/log" 2>&1; then
        /usr/bin/python3 tests/outside/edf_biosig.py "$work/text.hdr" "$work/short" || wrong=1
    else
        cat "$work/log"
        wrong=1
    fi
done

exit "$wrong"
