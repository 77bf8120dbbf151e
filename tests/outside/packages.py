# SPDX-License-Identifier: MIT
"""Looks into packages with nothing but the standard library: what NuGet's documented format of a package asks for, and what ours promise.

Usage: python3 packages.py FOLDER. Prints what is wrong and ends with 1.
"""
import re
import sys
import zipfile
from pathlib import Path
from xml.etree import ElementTree

# Fields that hold for all of ours.
LICENCE = "MIT"
TOOL = "SensorSim"


def nuspec(package):
    name = next(n for n in package.namelist() if n.endswith(".nuspec") and "/" not in n)
    root = ElementTree.fromstring(package.read(name))
    return {re.sub(r"\{.*\}", "", e.tag): e for e in root.iter()}, root


def wrong(path):
    with zipfile.ZipFile(path) as package:
        names = package.namelist()
        fields, root = nuspec(package)
        get = lambda key: (fields[key].text or "").strip() if key in fields else ""
        if get("license") != LICENCE or fields["license"].get("type") != "expression":
            yield f"licence is {get('license')!r}, not {LICENCE}"
        if len(get("description")) < 40 or get("description") == "Package Description":
            yield "has no description"
        if get("readme") != "README.md" or "README.md" not in names:
            yield "has no readme"
        if "-local" not in get("version"):
            yield f"version {get('version')} does not say that it was made here"
        if any(re.search(r"/(home|root|tmp|work)/", n) for n in names):
            yield "names a folder of this machine"
        identity = get("id")
        if identity == TOOL:
            tools = [n for n in names if n.startswith("tools/net10.0/any/")]
            for needed in ("sensorsim.dll", "SensorSim.DetectorHost.dll", "SensorSim.DetectorHost.runtimeconfig.json", "sensorsim_detector.h",
                           "runtimes/linux-x64/native/libSkiaSharp.so", "runtimes/linux-arm64/native/libSkiaSharp.so", "DotnetToolSettings.xml"):
                if not any(n.endswith("/" + needed) for n in tools):
                    yield f"lacks {needed}"
        else:
            if f"lib/net10.0/{identity}.dll" not in names or f"lib/net10.0/{identity}.xml" not in names:
                yield "lacks its library or the documentation of it"
            ours = [d.get("version") for d in root.iter() if d.tag.endswith("dependency") and d.get("id", "").startswith("SensorSim.")]
            if any(v != get("version") for v in ours):
                yield f"depends on other versions of ours: {ours}"


def main(folder):
    packages = sorted(Path(folder).glob("*.nupkg"))
    faults = [f"{p.name}: {w}" for p in packages for w in wrong(p)]
    print("\n".join(faults) if faults else f"{len(packages)} packages are as they should be")
    return 1 if faults or not packages else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
