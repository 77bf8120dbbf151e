#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The job as a user would write it by hand with numpy and scipy: make five signals, detect, score.

Signals: ECG 250 Hz; red, infrared and dark 100 Hz; three-axis movement 50 Hz (700 samples a second). Vectorised over whole arrays,
double precision, detection off line with zero-phase filters, so an easier job than a streaming integer detector has.
Prints one JSON line: the durations of the quickest of N repeats, counts, scores.

Needs Debian's python3-numpy and python3-scipy:  /usr/bin/python3 baseline.py --seconds 60 --repeats 5
"""
import argparse
import json
import time

import numpy as np
from scipy import signal

ECG_HZ, OPTICAL_HZ, MOVEMENT_HZ = 250, 100, 50
MATCH_S = 0.150  # window of beat-by-beat matching, ANSI/AAMI EC57
MAINS_HZ = 50.03

# Amplitude [mV], centre after the R peak [s, scaled with the root of RR for T], width [s]: invented, of textbook proportions.
WAVES = ((0.12, -0.170, 0.022), (-0.10, -0.030, 0.009), (1.10, 0.0, 0.010), (-0.22, 0.030, 0.010), (0.28, 0.270, 0.045))

# Pulse as a sum of two bells, height and centre after the foot [s] and width [s].
PULSE = ((1.0, 0.160, 0.060), (0.40, 0.400, 0.110))
ARRIVAL_S = 0.250  # centre of the R wave to the foot by tangents


def band_noise(rng, count, rate_hz, low_hz, high_hz, sd):
    """Noise of a band, scaled to a standard deviation."""
    sos = signal.butter(2, (low_hz, high_hz), "bandpass", fs=rate_hz, output="sos")
    wave = signal.sosfilt(sos, rng.standard_normal(count))
    return wave * (sd / wave.std())


def beat_times(rng, seconds, mean_rr_s=0.85):
    """R peak times with the two bands of heart-rate variability: about 0.1 Hz and with breathing at 0.25 Hz."""
    count = int(seconds / mean_rr_s * 1.3) + 4
    at = np.arange(count) * mean_rr_s
    phases = rng.uniform(0, 2 * np.pi, 2)
    rr = mean_rr_s + 0.03 * np.sin(2 * np.pi * 0.1 * at + phases[0]) + 0.03 * np.sin(2 * np.pi * 0.25 * at + phases[1])
    times = 0.4 + np.cumsum(rr + rng.normal(0, 0.005, count))
    return times[times < seconds + 1.0]


def add_bells(count, rate_hz, centres, heights, widths_s):
    """Sum of Gaussian bells, one per element, each written only within five widths: rows of a matrix, added where they belong."""
    out = np.zeros(count)
    half = int(np.ceil(5 * widths_s.max() * rate_hz))
    first = np.rint(centres * rate_hz).astype(np.int64)
    index = first[:, None] + np.arange(-half, half + 1)
    values = heights[:, None] * np.exp(-0.5 * ((index / rate_hz - centres[:, None]) / widths_s[:, None]) ** 2)
    inside = (index >= 0) & (index < count)
    out += np.bincount(index[inside], weights=values[inside], minlength=count)
    return out


def tangent_foot_offset():
    """Where the foot by tangents lies in the pulse, from a fine grid: the steepest tangent meets the level of the minimum."""
    t = np.arange(-0.2, 0.3, 1e-5)
    wave = sum(h * np.exp(-0.5 * ((t - c) / w) ** 2) for h, c, w in PULSE)
    slope = np.gradient(wave, t)
    steepest = slope.argmax()
    return t[steepest] - (wave[steepest] - wave[:steepest].min()) / slope[steepest]


def r_peak_offset():
    """Where the top of the summed waves lies: the Q and S waves move it a little off the R wave's own centre."""
    t = np.arange(-0.02, 0.02, 1e-6)
    return t[sum(h * np.exp(-0.5 * ((t - c) / w) ** 2) for h, c, w in WAVES).argmax()]


def quantise(wave, full_scale, bits):
    """Round to even, clamp, integers."""
    half = 1 << (bits - 1)
    return np.clip(np.rint(wave * (half / full_scale)), -half, half - 1).astype(np.int32)


def make(seconds, seed):
    """Integer codes of the channels, and the truth: times of R peaks and of pulse feet."""
    rng = np.random.default_rng(seed)
    beats = beat_times(rng, seconds)
    root_rr = np.sqrt(np.diff(beats, append=beats[-1] + 0.85) / 0.85)

    count = seconds * ECG_HZ
    t = np.arange(count) / ECG_HZ
    ecg = np.zeros(count)
    for height, centre, width in WAVES:
        stretch = root_rr if centre > 0.1 else np.ones_like(root_rr)
        ecg += add_bells(count, ECG_HZ, beats + centre * stretch, np.full(beats.size, height), width * stretch)
    ecg += 0.15 * np.sin(2 * np.pi * 0.25 * t) + 0.03 * np.sin(2 * np.pi * MAINS_HZ * t) + rng.normal(0, 0.02, count)

    count = seconds * OPTICAL_HZ
    t = np.arange(count) / OPTICAL_HZ
    offset = tangent_foot_offset()
    pulse = np.zeros(count)
    for height, centre, width in PULSE:
        pulse += add_bells(count, OPTICAL_HZ, beats + ARRIVAL_S - offset + centre, np.full(beats.size, height), np.full(beats.size, width))
    breathing = np.sin(2 * np.pi * 0.25 * t)
    ambient = 0.02 + 0.004 * np.sin(2 * np.pi * 2 * MAINS_HZ * t)
    red, infrared = (
        dc * np.exp(-index * pulse - 0.003 * breathing) + ambient + rng.normal(0, 1e-4, count)
        for dc, index in ((0.45, 0.010), (0.55, 0.020))
    )
    dark = ambient + rng.normal(0, 1e-4, count)

    count = seconds * MOVEMENT_HZ
    movement = np.stack([band_noise(rng, count, MOVEMENT_HZ, 0.5, 5, 0.02) + gravity for gravity in (0.1, 0.2, 0.97)])
    movement += rng.normal(0, 0.003, movement.shape)

    codes = {
        "ecg": quantise(ecg, 5.0, 18),
        "red": quantise(red, 1.0, 20),
        "infrared": quantise(infrared, 1.0, 20),
        "dark": quantise(dark, 1.0, 20),
        "movement": quantise(movement, 4.0, 16),
    }
    peaks, feet = beats + r_peak_offset(), beats + ARRIVAL_S
    return codes, peaks[peaks < seconds], feet[feet < seconds]


def parabola_top(wave, index):
    """Sub-sample place of the tops at the indices."""
    left, mid, right = wave[index - 1], wave[index], wave[index + 1]
    bend = left - 2 * mid + right
    return index + np.where(bend != 0, 0.5 * (left - right) / np.where(bend != 0, bend, 1), 0)


def detect_r_peaks(ecg):
    """Band-pass, slope, square, moving average, peaks above a local threshold, then the top of the band-passed wave nearby."""
    sos = signal.butter(2, (5, 20), "bandpass", fs=ECG_HZ, output="sos")
    wave = signal.sosfiltfilt(sos, ecg.astype(float))
    energy = np.gradient(wave) ** 2
    width = int(0.12 * ECG_HZ)
    kernel = np.full(width, 1 / width)
    energy = signal.oaconvolve(energy, kernel, mode="same")
    # Threshold: a share of the typical top of two-second stretches, the median of five of them, so that a change of gain is followed.
    stretch = 2 * ECG_HZ
    whole = energy[: energy.size // stretch * stretch].reshape(-1, stretch).max(axis=1)
    local = signal.medfilt(whole, 5) if whole.size >= 5 else np.full(whole.size, np.median(whole))
    local[local == 0] = np.median(whole)
    threshold = 0.3 * np.repeat(local, stretch)
    threshold = np.pad(threshold, (0, energy.size - threshold.size), mode="edge")
    rough, _ = signal.find_peaks(energy, height=threshold, distance=int(0.25 * ECG_HZ))

    reach = int(0.08 * ECG_HZ)
    index = np.clip(rough[:, None] + np.arange(-reach, reach + 1), 1, ecg.size - 2)
    top = index[np.arange(rough.size), np.abs(wave[index]).argmax(axis=1)]
    return parabola_top(wave, top) / ECG_HZ


def detect_feet(infrared, dark):
    """Light to absorbance, band-pass, steepest rises, tangent against the minimum before each."""
    light = np.maximum(infrared - dark, 1).astype(float)
    sos = signal.butter(2, (0.4, 10), "bandpass", fs=OPTICAL_HZ, output="sos")
    wave = signal.sosfiltfilt(sos, -np.log(light))
    slope = np.gradient(wave)
    steep, _ = signal.find_peaks(slope, height=0.4 * np.percentile(slope, 99), distance=int(0.35 * OPTICAL_HZ))
    reach = int(0.30 * OPTICAL_HZ)
    steep = steep[(steep >= reach) & (steep < slope.size - 1)]
    before = wave[steep[:, None] - np.arange(reach)]
    minimum = before.min(axis=1)
    place = parabola_top(slope, steep)
    height = np.interp(place, np.arange(wave.size), wave)
    return (place - (height - minimum) / slope[steep]) / OPTICAL_HZ


def match(truth, found):
    """One to one within the window, closest pairs first. Returns differences found - truth [s]."""
    if truth.size == 0 or found.size == 0:
        return np.zeros(0)
    at = np.searchsorted(found, truth)
    pairs_t = np.repeat(np.arange(truth.size), 2)
    pairs_f = np.stack([at - 1, at], axis=1).ravel()
    valid = (pairs_f >= 0) & (pairs_f < found.size)
    pairs_t, pairs_f = pairs_t[valid], pairs_f[valid]
    error = found[pairs_f] - truth[pairs_t]
    near = np.abs(error) <= MATCH_S
    pairs_t, pairs_f, error = pairs_t[near], pairs_f[near], error[near]
    order = np.argsort(np.abs(error), kind="stable")
    # In the order of closeness, a pair counts when neither side was seen before. The same as taking pairs one by one, as long as
    # marks of one kind are farther apart than twice the window, which these are.
    pairs_t, pairs_f, error = pairs_t[order], pairs_f[order], error[order]
    first_t = np.zeros(order.size, bool)
    first_t[np.unique(pairs_t, return_index=True)[1]] = True
    first_f = np.zeros(order.size, bool)
    first_f[np.unique(pairs_f, return_index=True)[1]] = True
    return error[first_t & first_f]


def score(truth, found, seconds, lead_in_s=8.0):
    """Sensitivity, positive predictivity and timing after the lead-in and before the last second."""
    truth = truth[(truth >= lead_in_s) & (truth < seconds - 1)]
    found = found[(found >= lead_in_s - MATCH_S) & (found < seconds - 1 + MATCH_S)]
    error = match(truth, found)
    scored = found[(found >= lead_in_s) & (found < seconds - 1)].size
    return {
        "reference_count": int(truth.size),
        "missed": int(truth.size - error.size),
        "extra": int(max(0, scored - error.size)),
        "timing_bias_ms": round(float(error.mean() * 1e3), 3) if error.size else None,
        "timing_sd_ms": round(float(error.std(ddof=1) * 1e3), 3) if error.size > 1 else None,
        "timing_p95_ms": round(float(np.percentile(np.abs(error), 95) * 1e3), 3) if error.size else None,
    }


def timed(function, *arguments):
    """Time by the clock on the wall, processor time, result."""
    wall, cpu = time.perf_counter(), time.process_time()
    result = function(*arguments)
    return time.perf_counter() - wall, time.process_time() - cpu, result


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--seconds", type=int, default=60, help="length of the stream in seconds, at least 12 (default 60)")
    options.add_argument("--repeats", type=int, default=5, help="how often to measure; the quickest counts (default 5)")
    options.add_argument("--seed", type=int, default=1, help="seed of the random numbers (default 1)")
    arguments = options.parse_args()
    if arguments.seconds < 12 or arguments.repeats < 1:
        options.error("--seconds must be at least 12 and --repeats at least 1")

    seconds, best, best_cpu = arguments.seconds, {}, {}
    for _ in range(arguments.repeats):
        make_s, make_cpu_s, (codes, beats, feet) = timed(make, seconds, arguments.seed)
        detect_s, detect_cpu_s, (found_beats, found_feet) = timed(
            lambda: (detect_r_peaks(codes["ecg"]), detect_feet(codes["infrared"], codes["dark"])))
        score_s, score_cpu_s, scores = timed(
            lambda: {"r_peak": score(beats, found_beats, seconds), "pulse_foot_tangent": score(feet, found_feet, seconds)})
        spent = {"make_s": make_s, "detect_s": detect_s, "score_s": score_s, "total_s": make_s + detect_s + score_s}
        best = spent if not best or spent["total_s"] < best["total_s"] else best
        spent = {"make_cpu_s": make_cpu_s, "detect_cpu_s": detect_cpu_s, "score_cpu_s": score_cpu_s,
                 "total_cpu_s": make_cpu_s + detect_cpu_s + score_cpu_s}
        best_cpu = spent if not best_cpu or spent["total_cpu_s"] < best_cpu["total_cpu_s"] else best_cpu

    samples = sum(channel.size for channel in codes.values())
    print(json.dumps({
        "schema_version": 1,
        "seconds": seconds,
        "repeats": arguments.repeats,
        "samples": samples,
        **{key: round(value, 6) for key, value in (best | best_cpu).items()},
        "make_ns_per_sample": round(best["make_s"] / samples * 1e9, 1),
        "detect_ns_per_sample": round(best["detect_s"] / samples * 1e9, 1),
        "x_real_time": round(seconds / best["total_s"]),
        "numpy": np.__version__,
        "scores": scores,
    }))


if __name__ == "__main__":
    main()
