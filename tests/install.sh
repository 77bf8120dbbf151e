# SPDX-License-Identifier: MIT
# Sourced by the test scripts: what they need from outside, installed where they may, else said in one sentence.

# need COMMAND PACKAGE: makes sure that a command is there, from a Debian package if it is not.
need() {
    is_there "$1" "$2" || install_or_say "$1" "$2"
}

# A command, also one for administrators; of a package without a command, the package.
is_there() {
    PATH=$PATH:/usr/sbin:/sbin command -v "$1" > /dev/null 2>&1 || dpkg -s "$2" 2> /dev/null | grep -q '^Status: install ok installed'
}

# need_module MODULE PACKAGE: the same for a module of Debian's own Python.
need_module() {
    /usr/bin/python3 -c "import $1" > /dev/null 2>&1 || install_or_say "the Python module $1" "$2"
}

# Every package of SDK and libraries comes through NuGet; the SDK itself is not in Debian's archive.
need_dotnet() {
    if ! command -v dotnet > /dev/null 2>&1; then
        echo "dotnet is missing: install the .NET 10 SDK (https://dotnet.microsoft.com/download/dotnet/10.0)" >&2
        return 1
    fi

    local version
    if ! version=$(dotnet --version 2>&1); then
        echo "the .NET SDK here does not fit global.json: install .NET 10 (https://dotnet.microsoft.com/download/dotnet/10.0)" >&2
        return 1
    fi

    echo ".NET SDK $version"
}

install_or_say() {
    if [ "$(id -u)" != 0 ] || ! command -v apt-get > /dev/null 2>&1; then
        echo "$1 is missing: install the Debian package $2 (apt-get install $2)" >&2
        return 1
    fi

    echo "installing $2 for $1"
    # The lists of packages are fetched only when the ones at hand do not do.
    apt_quietly "$2" || { apt-get update -qq > /dev/null 2>&1 && apt_quietly "$2"; } || {
        echo "$1 is missing and apt-get could not install $2" >&2
        return 1
    }
}

apt_quietly() {
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$1" > /dev/null 2>&1
}

# A scheduler of our own needs root; elsewhere its test is left out, and the last line says so.
is_root() { [ "$(id -u)" = 0 ]; }

# need_all: what the tests need beside .NET, as "command package" of Debian; fails if anything is missing, after it has tried all.
need_all() {
    local pair missing=0
    local needs=(
        "gcc gcc"
        "gencat libc6-dev"
        "make make"
        "clang clang"
        "arm-none-eabi-gcc gcc-arm-none-eabi"
        "newlib libnewlib-arm-none-eabi"
        "qemu-system-arm qemu-system-arm"
        "socat socat"
        "setpriv util-linux"
        "python3 python3"
        "qemu-aarch64 qemu-user"
        "arm64-libc libc6-arm64-cross"
        "arm64-libgcc libgcc-s1-arm64-cross"
        "arm64-libstdc++ libstdc++6-arm64-cross"
        "icu libicu-dev"
        "edflib libedf-dev"
    )
    if is_root; then
        needs+=("slurmctld slurmctld" "slurmd slurmd" "sbatch slurm-client" "munged munge" "slurm-plugins slurm-wlm-basic-plugins")
    fi

    for pair in "${needs[@]}"; do
        # shellcheck disable=SC2086 # two words on purpose
        need $pair || missing=1
    done
    return "$missing"
}

# The sanitizers of clang come in a package of their own, named after its version.
need_sanitizers() {
    local version
    version=$(clang -dumpversion | cut -d. -f1)
    [ -e "$(clang -print-resource-dir)/lib/linux/libclang_rt.asan-$(uname -m).a" ] || install_or_say "the sanitizers of clang $version" "libclang-rt-$version-dev"
}
