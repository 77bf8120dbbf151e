#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""SDNN, RMSSD and LF/HF of a run's true beats by numpy and scipy, apart from everything in this repository.

Definitions: Task Force, Circulation 93:1043, 1996 (LF 0.04-0.15 Hz, HF 0.15-0.40 Hz, tachogram resampled at 4 Hz).
usage: hrv.py TRUTH.csv SDNN_MS RMSSD_MS LF_HF    exit code 1 when a figure is further off than 3 % (ratio 10 %)
"""
import csv
import sys

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.signal import welch


def main() -> int:
    path, sdnn_wanted, rmssd_wanted, ratio_wanted = sys.argv[1], *map(float, sys.argv[2:5])
    with open(path, encoding="utf-8") as file:
        r = np.array([int(row["time_ns"]) for row in csv.DictReader(file) if row["kind"] == "r_peak"]) * 1e-9
    rr = np.diff(r) * 1e3
    sdnn = np.std(rr, ddof=1)
    rmssd = np.sqrt(np.mean(np.diff(rr) ** 2))
    grid = np.arange(r[0], r[-2], 0.25)
    frequency, density = welch(CubicSpline(r[:-1], rr)(grid), fs=4, nperseg=4096, detrend="constant")
    step = frequency[1] - frequency[0]
    lf = density[(frequency >= 0.04) & (frequency < 0.15)].sum() * step
    hf = density[(frequency >= 0.15) & (frequency < 0.40)].sum() * step
    print(f"beats {len(r)}, SDNN {sdnn:.2f} ms, RMSSD {rmssd:.2f} ms, LF {lf:.0f} ms2, HF {hf:.0f} ms2, LF/HF {lf / hf:.3f}")
    off = abs(sdnn / sdnn_wanted - 1) > 0.03 or abs(rmssd / rmssd_wanted - 1) > 0.03 or abs(lf / hf / ratio_wanted - 1) > 0.10
    return 1 if off else 0


if __name__ == "__main__":
    sys.exit(main())
