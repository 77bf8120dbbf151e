#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Packs libraries and command, installs the command from the local folder only and uses it, and runs the worked example of a test
# project (docs/examples/testing) against the packages, all in a folder outside of the repository.
# Usage, from any folder, after the Release build of tests/all.sh: bash tests/packages.sh
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
root=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
packages=$work/packages
tools=$work/tools
began=$SECONDS

# Whose packages these are; a release names its own version.
version=0.1.0-local
ids="Signals Body Sensing Scenarios FixedPoint Detection Detectors DetectorHost Scoring Studies Reports Files Links Testing"

step() {
    echo "$1: $((SECONDS - began)) s"
}

fail() {
    echo "packages: $1" >&2
    exit 1
}

dotnet pack SensorSim.sln -c Release --no-build -o "$packages" -v quiet --nologo --tl:off -nodeReuse:false -p:UseSharedCompilation=false
for id in $ids; do
    [ -f "$packages/SensorSim.$id.$version.nupkg" ] || fail "SensorSim.$id was not packed as $version"
done

[ -f "$packages/SensorSim.$version.nupkg" ] || fail "the command was not packed as $version"

# Nothing else is packed, and each says what it is, under which licence, with a page of its own.
[ "$(ls "$packages" | wc -l)" = $(($(echo "$ids" | wc -w) + 1)) ] || fail "packed was also what should not be: $(ls "$packages")"
python3 tests/outside/packages.py "$packages" || fail "a package is not as it should be"
step "packed"

# The command, from the local folder and nothing else.
cat > "$work/local.config" <<XML
<configuration>
  <packageSources><clear /><add key="local" value="$packages" /></packageSources>
</configuration>
XML
dotnet tool install SensorSim --version "$version" --tool-path "$tools" --configfile "$work/local.config" > "$work/install.log" 2>&1 || {
    cat "$work/install.log"
    fail "the command cannot be installed"
}
step "installed"

cd "$work"
"$tools/sensorsim" run "$root/waveforms/scenarios/rest-finger.toml" --out "$work/rest" > "$work/run.log" || fail "the installed command does not run: $(cat "$work/run.log")"
[ -s "$work/rest/signals.png" ] && [ -s "$work/rest/errors.png" ] || fail "the installed command draws no pictures"

# A C library runs in a child, a program that comes with the command.
gcc -std=c99 -O2 -shared -fPIC -I "$root/docs/examples/c-detector" -o "$work/threshold.so" "$root/docs/examples/c-detector/threshold.c"
"$tools/sensorsim" run "$root/docs/examples/testing/scenarios/at-desk.toml" --detector "$work/threshold.so" > "$work/own.log" \
    || fail "the installed command does not run a C library: $(cat "$work/own.log")"
grep -q "detector: threshold 1.0" "$work/own.log" || fail "it was not the C library that ran"
"$tools/sensorsim" selftest > "$work/selftest.log" || fail "the installed command does not pass its own check: $(cat "$work/selftest.log")"
step "used"

# The example of a test project, as somebody else has it. Packages of ours come from the local folder and go to a cache of this run;
# what others publish comes from where this machine has it.
cp -r "$root/docs/examples/testing" "$work/app"
rm -rf "$work/app/bin" "$work/app/obj"
cat > "$work/app/nuget.config" <<XML
<configuration>
  <config><add key="globalPackagesFolder" value="$work/cache" /></config>
  <packageSources><add key="sensorsim" value="$packages" /></packageSources>
  <fallbackPackageFolders><add key="machine" value="$(dotnet nuget locals global-packages --list | sed 's/^[^:]*: //')" /></fallbackPackageFolders>
</configuration>
XML
cd "$work/app"
dotnet build -c Release -v quiet --nologo --tl:off -nodeReuse:false -p:UseSharedCompilation=false -p:SensorSimVersion="$version" -o "$work/built"
[ -f "$work/built/SensorSim.DetectorHost.runtimeconfig.json" ] || fail "the program for C libraries does not come with the package"
step "example built"
BAND_FIRMWARE=$work/threshold.so "$work/built/BandApp.Tests" --no-ansi --progress off > "$work/example.log" 2>&1 || {
    cat "$work/example.log"
    fail "the example fails against the packages"
}
grep -Eq '^ +skipped: +0' "$work/example.log" || fail "the example left tests out: $(cat "$work/example.log")"
grep -E '^ +(succeeded|failed):' "$work/example.log"
step "example run"
