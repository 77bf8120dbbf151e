#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""What BioSig's save2gdf printed of a BDF+ or EDF+ file, against codes and scale of the same run as CSV.

usage: edf_biosig.py TEXT FOLDER    TEXT is the header that it wrote, beside it one file of values per signal; FOLDER holds channels.csv and one CSV per
channel. Exit code 1 when a value is another one. BioSig prints six digits, so that is how closely values are compared.
"""
import csv
import os
import sys

import numpy as np


def main() -> int:
    text, folder = sys.argv[1:3]
    with open(f"{folder}/channels.csv", encoding="utf-8") as file:
        formats = {row["channel"]: row for row in csv.DictReader(file)}
    wrong = found = 0
    values = None
    rate = 0.0
    with open(text, encoding="latin-1") as file:
        lines = [line.split("=", 1) for line in file if "=" in line]
    for key, value in ((key.strip(), value.strip()) for key, value in lines):
        if key == "Filename" and ".a" in os.path.basename(value):
            values = np.loadtxt(os.path.join(os.path.dirname(text), os.path.basename(value)))
        elif key == "Transducer" and values is not None:
            name = value.split(" ")[0]
        elif key == "SamplingRate" and values is not None:
            row, rate = formats[name], float(value.split(" ")[0])
            samples, codes = np.loadtxt(f"{folder}/{name}.csv", delimiter=",", skiprows=1, usecols=(0, 1), dtype=np.int64, unpack=True)
            wanted = (codes - int(row["zero_code"])) * float(row["unit_per_code"]) * int(row["polarity"])
            off = np.abs(values[samples] - wanted) > 1e-5 * np.abs(wanted) + 1e-9
            print(f"{name}: {len(samples)} samples at {rate:g} Hz, {np.count_nonzero(off)} off")
            wrong |= bool(off.any()) or rate != float(row["rate_hz"])
            found += 1
            values = None
    return 1 if wrong or found == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
