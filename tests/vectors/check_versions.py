# SPDX-License-Identifier: MIT
"""What versions.py finds: every kind of change, on lists made here. python3 -m unittest tests/vectors/check_versions.py"""
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import versions

CHANGELOG = "Generator version 3.\n### Detection library (sensorsim 0.4)\n"


def manifest(generator=3, detector="sensorsim 0.4", **changed):
    streams = {"stimulus": "a1", "truth": "b1", "acquisition": "c1", "acceptance": "d1", "expected": "e1"}
    return {"generator_version": generator, "detector": detector, "cases": [{"name": "rest", "sha256": streams | changed}]}


class Versions(unittest.TestCase):
    def setUp(self):
        self.ledger = versions.shipped(manifest())

    def faults(self, of, changelog=CHANGELOG):
        return versions.compare(versions.shipped(of), self.ledger, changelog)

    def test_what_is_listed_passes(self):
        self.assertEqual(self.faults(manifest()), [])

    def test_every_changed_stream_is_told_with_what_to_raise(self):
        for stream in ("stimulus", "truth", "acquisition", "acceptance"):
            [fault] = self.faults(manifest(**{stream: "ff"}))
            self.assertIn(f"rest/{stream}: changed within generator version 3; raise Scenario.GeneratorVersion", fault)
        [fault] = self.faults(manifest(expected="ff"))
        self.assertIn("rest/expected: changed within detector version sensorsim 0.4; raise LibraryDetector.Name", fault)

    def test_raised_version_must_be_listed_and_told(self):
        faults = self.faults(manifest(generator=4, truth="ff"))
        self.assertEqual(len([fault for fault in faults if "--add" in fault]), 4)
        self.assertIn('"Generator version 4" must stand in it', faults[-1])
        self.assertEqual(len(self.faults(manifest(detector="sensorsim 0.5"))), 2)
        self.assertIn("does not tell", self.faults(manifest(), CHANGELOG.replace("version 3", "version 31"))[0])

    def test_rows_that_go_or_change_are_told(self):
        changed = dict(self.ledger)
        changed[("generator", "3", "rest", "truth")] = "ff"
        del changed[("generator", "3", "rest", "stimulus")]
        self.assertEqual(versions.lost_rows(changed, self.ledger), ["generator 3 rest stimulus", "generator 3 rest truth"])
        self.assertEqual(versions.lost_rows(self.ledger | {("generator", "4", "rest", "truth"): "1"}, self.ledger), [])

    def test_a_stream_stands_once_in_a_version(self):
        with self.assertRaises(SystemExit):
            versions.read_ledger("maker,version,case,stream,sha256\ngenerator,3,rest,truth,aa\ngenerator,3,rest,truth,bb\n")


if __name__ == "__main__":
    unittest.main()
