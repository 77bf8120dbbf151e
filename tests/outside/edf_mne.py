#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A BDF+ or EDF+ file as MNE reads it, against codes and scale of the same run as CSV.

usage: edf_mne.py FILE FOLDER    FOLDER holds channels.csv and one CSV per channel; exit code 1 when a value or the number of annotations is another one
"""
import csv
import sys
import warnings

import mne
import numpy as np

LABELS = {"ECG": "ecg", "Pleth red": "red", "Pleth IR": "infrared", "Pleth green": "green", "Light dark": "dark",
          "Accel X": "accel_x", "Accel Y": "accel_y", "Accel Z": "accel_z"}
# MNE turns millivolts and microvolts into volts and leaves other units alone.
VOLTS = {"ecg": 1e-3}


def main() -> int:
    path, folder = sys.argv[1:3]
    warnings.simplefilter("ignore")
    with open(f"{folder}/channels.csv", encoding="utf-8") as file:
        formats = {row["channel"]: row for row in csv.DictReader(file)}
    wrong = 0
    names = mne.io.read_raw(path, preload=False, verbose="error").ch_names
    for label in names:
        # One at a time: MNE brings all channels that it reads together to one rate.
        raw = mne.io.read_raw(path, include=[label], preload=True, verbose="error")
        name = LABELS[label]
        row = formats[name]
        samples, codes = np.loadtxt(f"{folder}/{name}.csv", delimiter=",", skiprows=1, usecols=(0, 1), dtype=np.int64, unpack=True)
        wanted = (codes - int(row["zero_code"])) * float(row["unit_per_code"]) * int(row["polarity"]) * VOLTS.get(name, 1)
        values = raw.get_data()[0][samples]
        worst = np.max(np.abs(values - wanted)) / (float(row["unit_per_code"]) * VOLTS.get(name, 1))
        print(f"{label}: {len(samples)} samples at {raw.info['sfreq']:g} Hz, worst {worst:.2g} codes off")
        wrong |= worst > 0.01 or raw.info["sfreq"] != float(row["rate_hz"])
    notes = mne.read_annotations(path)
    peaks = [t for t, text in zip(notes.onset, notes.description) if text.startswith("truth ecg r_peak")]
    print(f"{len(notes)} annotations, {len(peaks)} of R peaks")
    wrong |= not any(text.startswith("end tick") for text in notes.description)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
