#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Writes portable-functions.csv: true values of elementary functions, to 60 digits and more, by mpmath.

Needs mpmath (Debian: python3-mpmath; 1.2.1 was used). Usage: make_reference.py > portable-functions.csv
Columns: function, bits of the first argument, bits of the second (empty when there is none), bits of the double nearest
to the true value, and what that lacks in units of its last place.
"""
import random
import struct
from mpmath import mp, mpf, atan2, cos, erfinv, exp, floor, frexp, ldexp, log, nint, pi, sin, sqrt

mp.prec = 1400  # sine of the largest double needs 1024 + 53 + 53 bits and some
draw = random.Random(20250101)


def bits(value):
    return struct.pack(">d", value).hex()


def from_bits(word):
    return struct.unpack(">d", struct.pack(">Q", word))[0]


def row(name, true, x, y=None):
    unit = max(int(frexp(true)[1]) - 53, -1074) if true else -1074
    whole = nint(ldexp(true, -unit))
    head = float(ldexp(whole, unit))
    lacks = float(ldexp(true, -unit) - whole)
    print(f"{name},{bits(x)},{'' if y is None else bits(y)},{bits(head)},{lacks:.5f}")


def uniform(low, high):
    return draw.uniform(low, high)


def any_size():
    return from_bits(draw.randrange(1, 0x7FEFFFFFFFFFFFFF))


def times(count, make):
    return [make() for _ in range(count)]


def exponentials():
    inputs = [0.0, 1.0, -1.0, 5e-324, 1e-17, -1e-17, 708.0, -708.0, 709.0, 709.782712893384]
    inputs += times(250, lambda: uniform(-10, 10)) + times(120, lambda: uniform(-708, 709.78)) + times(40, lambda: uniform(-1e-3, 1e-3))
    inputs += [mp_halfway(k) for k in range(-40, 41, 2)]
    for x in inputs:
        row("exp", exp(mpf(x)), x)
    for x in [-708.5, -745.13, -745.0, -740.0] + times(40, lambda: uniform(-745, -708.4)):
        row("exp_subnormal", exp(mpf(x)), x)


def mp_halfway(k):
    """Where the reduced argument is largest: halfway between two rows of the table."""
    return float((mpf(k) + mpf(1) / 2) * log(2) / 64)


def logarithms():
    inputs = [5e-324, 2.2250738585072014e-308, 0.5, 1 - 2 ** -53, 1 + 2 ** -52, 2.0, 10.0, 1.7976931348623157e308, 0.70710678118654746, 0.70710678118654757]
    inputs += times(150, any_size) + times(150, lambda: uniform(0.5, 2)) + times(100, lambda: 1 + uniform(-0.01, 0.01)) + times(40, lambda: uniform(1, 300))
    for x in inputs:
        row("log", log(mpf(x)), x)


def circular():
    near = [float(mpf(k) * pi / 2) for k in (1, 2, 3, 7, 100, 1001, 65537, 400002, 636619)]
    inputs = near + [1e-9, 1e-8, 0.7853981633974483, 0.78539816339744839, 1e6, 999999.9]
    inputs += times(150, lambda: uniform(-10, 10)) + times(150, lambda: uniform(-1e6, 1e6))
    for x in inputs:
        row("sin", sin(mpf(x)), x)
        row("cos", cos(mpf(x)), x)
    # 6381956970095103 x 2^797: the double nearest to a multiple of pi/2 (Muller, Elementary Functions, 2016, section on
    # range reduction; the number from memory, its closeness checked here).
    worst = float(mpf(6381956970095103) * mpf(2) ** 797)
    assert abs(cos(mpf(worst))) < mpf("5e-19")
    for x in [worst, -worst, 1000000.1, 2.0 ** 60, 1.7976931348623157e308] + times(60, lambda: from_bits(draw.randrange(0x412E848100000000, 0x7FEFFFFFFFFFFFFF))):
        row("sin_large", sin(mpf(x)), x)
        row("cos_large", cos(mpf(x)), x)


def turns():
    inputs = [0.125, -0.125, 0.375, 1e-9, 0.1249999999999, 0.24999999, 2.0 ** 49 + 0.125, 1e15 + 0.375]
    inputs += times(200, lambda: uniform(-2, 2)) + times(100, lambda: uniform(-1e9, 1e9)) + times(40, lambda: uniform(-1e15, 1e15))
    for x in inputs:
        fraction = mpf(x) - floor(mpf(x))
        if fraction * 4 != floor(fraction * 4):  # at quarter turns the true values are whole: another test
            row("turn_sin", sin(2 * pi * fraction), x)
            row("turn_cos", cos(2 * pi * fraction), x)


def powers():
    pairs = [(2.0, 0.5), (10.0, 2.0), (10.0, -2.0), (0.5, 1000.0), (1 + 2 ** -52, 2.0 ** 58), (1 - 2 ** -53, -(2.0 ** 58)), (3.0, -600.0)]
    pairs += times(150, lambda: (uniform(0, 4), uniform(-20, 20))) + times(150, lambda: (uniform(1e-4, 1e5), uniform(-2, 2)))
    pairs += times(80, lambda: (1 + uniform(-1e-6, 1e-6), uniform(-5e8, 5e8))) + times(80, lambda: (any_size(), uniform(-0.98, 0.98)))
    for x, y in pairs:
        true = exp(mpf(y) * log(mpf(x)))
        if mpf(2) ** -1021 < true < mpf(2) ** 1023:
            row("pow", true, x, y)


def angles():
    pairs = [(1.0, 1.0), (1.0, -1.0), (1.0, 2.0), (2.0, 1.0), (1e-300, 1e300), (5e-324, 1.0), (1e308, 1.5e308), (3e-310, 4e-310), (1e-320, -2e-310)]
    pairs += times(250, lambda: (uniform(-1, 1), uniform(-1, 1))) + times(80, lambda: (any_size(), any_size()))
    pairs += times(100, lambda: (uniform(0, 0.07), 1.0))
    for y, x in pairs:
        true = atan2(mpf(y), mpf(x))
        if abs(true) >= mpf(2) ** -1021 or true == 0:
            row("atan2", true, y, x)


def normals():
    """First argument: the probability (word + 1/2) / 2^32 of a word below 2^31, as a double."""
    mp.prec = 200
    words = [0, 1, 2, 3, 5, 16, 31, 32, 63, 64, 100, 2 ** 31 - 1, 2 ** 31 - 2, 2 ** 30, 2 ** 30 - 1]
    words += [draw.randrange(2 ** k, 2 ** (k + 1)) for k in range(4, 31) for _ in range(8)]
    for word in words:
        p = (mpf(word) + mpf(1) / 2) / 2 ** 32
        row("normal", -sqrt(mpf(2)) * erfinv(1 - 2 * p), float(p))


if __name__ == "__main__":
    print("function,x_bits,y_bits,nearest_bits,lacks_ulp")
    for part in (exponentials, logarithms, circular, turns, powers, angles, normals):
        part()
