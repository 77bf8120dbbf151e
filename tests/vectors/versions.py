# SPDX-License-Identifier: MIT
"""Holds the shipped vectors against the list of versions (waveforms/vector-versions.csv): a stream of a case never changes within a version.

Stimulus, truth, acquisition and acceptance belong to the generator's version, expected answers to the detector's. The list only grows; a row that
stood in it in any commit of the main line stands in it still. docs/versions.md says what to do when something changes on purpose.

    python3 tests/vectors/versions.py          checks
    python3 tests/vectors/versions.py --add    first adds the rows of versions and cases that the list does not know yet
"""
import csv
import json
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LEDGER = Path("waveforms/vector-versions.csv")
MANIFEST = Path("waveforms/vectors/manifest.json")
CHANGELOG = Path("docs/CHANGELOG.md")
COLUMNS = ["maker", "version", "case", "stream", "sha256"]


def shipped(manifest):
    """(maker, version, case, stream) -> sum, of the set as it is shipped."""
    rows = {}
    for case in manifest["cases"]:
        for stream, value in case["sha256"].items():
            maker, version = ("detector", manifest["detector"]) if stream == "expected" else ("generator", str(manifest["generator_version"]))
            rows[(maker, version, case["name"], stream)] = value
    return rows


def read_ledger(text):
    """The rows in order; refuses a stream that stands in it twice."""
    lines = list(csv.reader(text.splitlines()))
    if not lines or lines[0] != COLUMNS:
        raise SystemExit(f"{LEDGER}:1: the columns must be {','.join(COLUMNS)}")
    rows = {}
    for number, line in enumerate(lines[1:], 2):
        if len(line) != len(COLUMNS):
            raise SystemExit(f"{LEDGER}:{number}: a row has {len(COLUMNS)} columns, this one {len(line)}")
        key = tuple(line[:4])
        if key in rows:
            raise SystemExit(f"{LEDGER}:{number}: {' '.join(key)} stands in it twice; a stream has one sum in a version")
        rows[key] = line[4]
    return rows


def compare(rows, ledger, changelog):
    """Sentences about what is wrong; none when all is well."""
    faults = []
    for key, value in rows.items():
        maker, version, case, stream = key
        known = ledger.get(key)
        if known is None:
            faults.append(f"{case}/{stream}: not in {LEDGER} for {maker} {version}; if it is new: python3 tests/vectors/versions.py --add")
        elif known != value:
            raised = "LibraryDetector.Name" if maker == "detector" else "Scenario.GeneratorVersion"
            faults.append(f"{case}/{stream}: changed within {maker} version {version}; raise {raised} and say why in {CHANGELOG}, or give the case another name")
    for maker, version in sorted({key[:2] for key in rows}):
        words = f"({version})" if maker == "detector" else f"Generator version {version}"
        if not re.search(re.escape(words) + r"(?!\d)", changelog):
            faults.append(f"{CHANGELOG}: does not tell of {maker} version {version}; \"{words}\" must stand in it, with what changed and why")
    return faults


def lost_rows(ledger, past):
    """Rows of an earlier text of the list that are gone or changed."""
    return [" ".join(key) for key, value in past.items() if ledger.get(key) != value]


def git(*arguments):
    done = subprocess.run(["git", *arguments], cwd=ROOT, capture_output=True, text=True)
    return done.stdout if done.returncode == 0 else ""


def main():
    ledger_path = ROOT / LEDGER
    text = ledger_path.read_text(encoding="utf-8") if ledger_path.exists() else ",".join(COLUMNS) + "\n"
    rows = shipped(json.loads((ROOT / MANIFEST).read_text(encoding="utf-8")))
    if not rows:
        raise SystemExit(f"{MANIFEST}: lists no stream")
    ledger = read_ledger(text)
    if "--add" in sys.argv[1:]:
        added = {key: value for key, value in rows.items() if key not in ledger}
        text += "".join(",".join((*key, value)) + "\n" for key, value in added.items())
        ledger_path.write_text(text, encoding="utf-8", newline="\n")
        ledger |= added
        print(f"{len(added)} rows added to {LEDGER}")
    faults = compare(rows, ledger, (ROOT / CHANGELOG).read_text(encoding="utf-8"))
    # Of the main line only: what a branch tried before it was taken in was never published.
    commits = git("log", "--first-parent", "--format=%H", "--", str(LEDGER)).split()
    for commit in commits:
        past = git("show", f"{commit}:{LEDGER.as_posix()}")
        if past:
            faults += [f"{LEDGER}: {row}: stood otherwise in commit {commit[:10]}; the list only grows" for row in lost_rows(ledger, read_ledger(past))]
    for fault in faults[:20]:
        print(fault)
    versions = len({key[:2] for key in ledger})
    print(f"{len(rows)} streams held against {len(ledger)} rows of {versions} versions and {len(commits)} earlier lists: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
