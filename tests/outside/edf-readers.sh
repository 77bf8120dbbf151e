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
"$command" record waveforms/scenarios/rest-finger.toml --format csv,bdf --seed 7 --out "$work/run" > /dev/null || exit 1
wrong=0
for file in "$work"/run/*.bdf "$work"/run/*.edf; do
    [ -f "$file" ] || continue
    /usr/bin/python3 tests/outside/edf_mne.py "$file" "$work/run" || wrong=1
    # The header as BioSig reads it, and each sample as text (files NAME.a01 and so on).
    if save2gdf -f=ASCII "$file" "$work/text" > "$work/log" 2>&1; then
        /usr/bin/python3 tests/outside/edf_biosig.py "$work/text" "$work/run" || wrong=1
    else
        cat "$work/log"
        wrong=1
    fi
done

exit "$wrong"
