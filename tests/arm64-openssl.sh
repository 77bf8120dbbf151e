#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# OpenSSL for the emulated arm64 way of tests/same-bits.sh: .NET takes its SHA-256 from there, and Debian has no cross package of it. The package of the
# other architecture is fetched with lists and settings of its own and unpacked into artifacts/arm64; nothing of the system's packages changes.
set -eu
cd "$(dirname "${BASH_SOURCE[0]}")/.."
folder=$PWD/artifacts/arm64
[ ! -e "$folder/usr/lib/aarch64-linux-gnu/libcrypto.so.3" ] || exit 0
package=$(dpkg -S '*/libcrypto.so.3' 2> /dev/null | sed -n '1s/[:,].*//p')
[ -n "$package" ] || { echo "OpenSSL 3 is missing; .NET needs it: apt-get install libssl3" >&2; exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$work/lists/partial" "$work/cache/archives/partial" "$folder"
touch "$work/status"
cat > "$work/apt.conf" << CONF
APT::Architecture "arm64";
APT::Architectures { "arm64"; };
APT::Sandbox::User "root";
Acquire::Languages "none";
Dir::State::lists "$work/lists";
Dir::State::status "$work/status";
Dir::Cache "$work/cache";
CONF
export APT_CONFIG=$work/apt.conf
apt-get update -qq
(cd "$work" && apt-get download -qq "$package" && dpkg -x "$package"_*.deb "$folder")
[ -e "$folder/usr/lib/aarch64-linux-gnu/libcrypto.so.3" ] || { echo "$package of arm64 holds no libcrypto.so.3" >&2; exit 1; }
