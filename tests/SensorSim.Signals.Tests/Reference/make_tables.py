#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Writes the constants of SensorSim.Signals/Numerics: tables, split constants and polynomial coefficients.

Needs mpmath (Debian: python3-mpmath). Usage: make_tables.py FOLDER, the folder being src/SensorSim.Signals/Numerics.
Polynomials interpolate the function at the Chebyshev nodes of its interval (within a small factor of minimax), in
60 digits, each coefficient then rounded to the nearest double.
"""
import sys
from mpmath import mp, mpf, cos, exp, log, log1p, expm1, sin, atan, pi, floor, nint, matrix, lu_solve, sqrt

mp.dps = 70
HEAD = "// SPDX-License-Identifier: MIT\n// Written by tests/SensorSim.Signals.Tests/Reference/make_tables.py; do not edit by hand.\n"


def text(value):
    return repr(float(value)).replace("e", "E")


def fit(function, low, high, degree):
    """Coefficients, lowest first, of the polynomial through the Chebyshev nodes of [low, high]."""
    n = degree + 1
    half, middle = (high - low) / 2, (high + low) / 2
    nodes = [middle + half * cos((2 * i + 1) * pi / (2 * n)) for i in range(n)]
    system = matrix(n, n)
    right = matrix(n, 1)
    for i, x in enumerate(nodes):
        for k in range(n):
            system[i, k] = x ** k
        right[i] = function(x)
    return [lu_solve(system, right)[k] for k in range(n)]


def multiple(value, exponent):
    """The multiple of 2^exponent nearest to a value, and what is left."""
    step = mpf(2) ** exponent
    head = nint(value / step) * step
    return head, value - head


def constants(name, coefficients, doc):
    lines = [f"    // {doc}"]
    lines += [f"    private const double {name}{k} = {text(c)};" for k, c in enumerate(coefficients)]
    return "\n".join(lines) + "\n"


def table(name, summary, remarks, rows, width):
    out = HEAD + "namespace SensorSim.Signals.Numerics;\n\n"
    out += f"/// <summary>{summary}</summary>\n/// <remarks>{remarks}</remarks>\ninternal static class {name}\n{{\n"
    out += f"    /// <summary>Rows of {width} numbers.</summary>\n    public static ReadOnlySpan<double> Rows =>\n    [\n"
    for row in rows:
        out += "        " + ", ".join(text(v) for v in row) + ",\n"
    return out + "    ];\n}\n"


def exp_table():
    rows = []
    for j in range(64):
        exact = mpf(2) ** (mpf(j) / 64)
        head = mpf(float(exact))
        rows.append((head, (exact - head) / head))
    return table("ExpTable", "2^(j/64) for j = 0 to 63.",
                 "Columns: the nearest double; what it lacks, relative to it.", rows, 2)


def log_table():
    rows = []
    for j in range(90, 182):
        head, tail = multiple(log(mpf(j) / 128), -42)
        rows.append((mpf(128) / j, head, tail))
    return table("LogTable", "Reciprocal and natural logarithm of j/128 for j = 90 to 181.",
                 "Columns: 128/j; the logarithm rounded to a multiple of 2^-42; what that lacks.", rows, 3)


def atan_table():
    rows = []
    for j in range(65):
        exact = atan(mpf(j) / 64)
        rows.append((float(exact), exact - mpf(float(exact))))
    return table("AtanTable", "Arc tangent of j/64 for j = 0 to 64.",
                 "Columns: the nearest double; what it lacks.", rows, 2)


def two_over_pi():
    bits = int(floor(2 / pi * mpf(2) ** 1216)) if mp.prec > 1300 else None
    words = [(bits >> (64 * (18 - i))) & (2 ** 64 - 1) for i in range(19)]
    out = HEAD + "namespace SensorSim.Signals.Numerics;\n\n"
    out += "/// <summary>The first 1216 binary digits of 2/π, behind 64 zeros.</summary>\n"
    out += "internal static class TwoOverPi\n{\n    /// <summary>Words of 64 digits, most significant first.</summary>\n"
    out += "    public static ReadOnlySpan<ulong> Words =>\n    [\n        0,\n"
    out += "".join(f"        0x{w:016X},\n" for w in words) + "    ];\n}\n"
    return out


def coefficients():
    out = HEAD + "namespace SensorSim.Signals.Numerics;\n\n"
    out += "public static partial class PortableMath\n{\n"
    r = log(2) / 128 * mpf("1.001")
    out += constants("ExpC", fit(lambda x: (expm1(x) - x) / x ** 2, -r, r, 3), "(e^r - 1 - r) / r^2, |r| <= ln2 / 128")
    head, tail = multiple(log(2) / 64, -42)
    out += f"\n    // ln2 / 64: 36 bits, and the rest; a whole number below 2^17 times the first is exact.\n"
    out += f"    private const double Ln2Over64Hi = {text(head)};\n    private const double Ln2Over64Lo = {text(tail)};\n"
    out += f"    private const double SixtyFourOverLn2 = {text(64 / log(2))};\n\n"
    q = mpf(1) / 256 / (mpf(90) / 128)  # not quite symmetric below: no node may be zero, where the quotient is only a limit
    out += constants("LogC", fit(lambda x: (log1p(x) - x + x ** 2 / 2) / x ** 3, -q, q * mpf("1.01"), 6),
                     "(ln(1 + r) - r + r^2 / 2) / r^3, |r| <= 1/180")
    head, tail = multiple(log(2), -42)
    out += "\n    // ln2: a multiple of 2^-42, and the rest.\n"
    out += f"    private const double Ln2Hi = {text(head)};\n    private const double Ln2Lo = {text(tail)};\n\n"
    z = (pi / 4) ** 2 * mpf("1.001")
    out += constants("SinC", fit(lambda v: (sin(sqrt(v)) / sqrt(v) - 1) / v, mpf(0), z, 5),
                     "(sin(r) / r - 1) / r^2 in r^2, |r| <= pi / 4")
    out += "\n" + constants("CosC", fit(lambda v: (cos(sqrt(v)) - 1 + v / 2) / v ** 2, mpf(0), z, 5),
                            "(cos(r) - 1 + r^2 / 2) / r^4 in r^2, |r| <= pi / 4")
    half_pi = pi / 2
    p1, rest = multiple(half_pi, -32)
    p2, rest = multiple(rest, -66)
    p3, rest = multiple(rest, -100)
    out += "\n    // pi / 2 in three parts of at most 33 bits, and the rest; a whole number below 2^20 times a part is exact.\n"
    for name, value in (("HalfPi1", p1), ("HalfPi2", p2), ("HalfPi3", p3), ("HalfPi4", rest)):
        out += f"    private const double {name} = {text(value)};\n"
    out += f"    private const double TwoOverPiDouble = {text(2 / pi)};\n"
    hi = mpf(float(half_pi))
    out += "\n    // pi / 2 and pi as the nearest double, and the rest.\n"
    out += f"    private const double HalfPiHi = {text(hi)};\n    private const double HalfPiLo = {text(half_pi - hi)};\n\n"
    t = (mpf(1) / 8) ** 2 * mpf("1.001")
    hi = mpf(float(2 * pi))
    out += "    // 2 pi, and the rest.\n"
    out += f"    private const double TwoPiHi = {text(hi)};\n    private const double TwoPiLo = {text(2 * pi - hi)};\n\n"
    out += constants("TurnSinC", fit(lambda v: (sin(2 * pi * sqrt(v)) / sqrt(v) - 2 * pi) / v, mpf(0), t, 5),
                     "(sin(2 pi f) / f - 2 pi) / f^2 in f^2, |f| <= 1/8")
    out += "\n" + constants("TurnCosC", fit(lambda v: (cos(2 * pi * sqrt(v)) - 1) / v, mpf(0), t, 6),
                            "(cos(2 pi f) - 1) / f^2 in f^2, |f| <= 1/8")
    u = (mpf(1) / 16) ** 2 * mpf("1.001")
    out += "\n" + constants("AtanC", fit(lambda v: (atan(sqrt(v)) / sqrt(v) - 1) / v, mpf(0), u, 4),
                            "(atan(u) / u - 1) / u^2 in u^2, |u| <= 1/16")
    return out + "}\n"


def main():
    folder = sys.argv[1]
    mp.prec = 1400
    files = {"TwoOverPi.cs": two_over_pi()}
    mp.dps = 70
    files |= {"ExpTable.cs": exp_table(), "LogTable.cs": log_table(), "AtanTable.cs": atan_table(),
              "PortableMath.Coefficients.cs": coefficients()}
    for name, content in files.items():
        with open(f"{folder}/{name}", "w", encoding="utf-8", newline="\n") as out:
            out.write(content)


if __name__ == "__main__":
    main()
