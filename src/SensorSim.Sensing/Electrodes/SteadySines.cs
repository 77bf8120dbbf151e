// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Sines of a phase that rises in equal steps, eight samples at a time, from one sine and cosine each of phase and step.</summary>
/// <remarks>Stretches are whole groups of eight.</remarks>
internal static class SteadySines
{
    /// <summary>Samples that are made at once.</summary>
    public const int Group = 8;

    /// <summary>Sine and cosine.</summary>
    /// <param name="from">Cosine and sine of the first sample's phase.</param>
    /// <param name="step">Cosine and sine of the step.</param>
    /// <param name="sines">Receives the sines.</param>
    /// <param name="cosines">Receives as many cosines.</param>
    public static void Fill(Phasor from, Phasor step, Span<double> sines, Span<double> cosines)
    {
        Begin(from, step, out Vector256<double> sin, out Vector256<double> cos, out Phasor four);
        Phasor eight = four * four;
        Vector256<double> nextSin = (sin * four.Real) + (cos * four.Imaginary);
        Vector256<double> nextCos = (cos * four.Real) - (sin * four.Imaginary);
        var stepSin = Vector256.Create(eight.Imaginary);
        var stepCos = Vector256.Create(eight.Real);
        Span<Vector256<double>> s = MemoryMarshal.Cast<double, Vector256<double>>(sines);
        Span<Vector256<double>> c = MemoryMarshal.Cast<double, Vector256<double>>(cosines)[..s.Length];
        for (int i = 0; i + 1 < s.Length; i += 2)
        {
            s[i] = sin;
            c[i] = cos;
            s[i + 1] = nextSin;
            c[i + 1] = nextCos;
            (sin, cos) = ((sin * stepCos) + (cos * stepSin), (cos * stepCos) - (sin * stepSin));
            (nextSin, nextCos) = ((nextSin * stepCos) + (nextCos * stepSin), (nextCos * stepCos) - (nextSin * stepSin));
        }
    }

    /// <summary>The sine alone of a slow phase: y(n) = 2 cos(8δ) y(n − 8) − y(n − 16).</summary>
    /// <remarks>With n groups of eight some n / sin(8δ) roundings gather, at most n²: of a slow sine a part in 10^13.</remarks>
    /// <param name="from">Cosine and sine of the first sample's phase.</param>
    /// <param name="step">Cosine and sine of the step.</param>
    /// <param name="sines">Receives the sines.</param>
    public static void FillSlow(Phasor from, Phasor step, Span<double> sines)
    {
        Begin(from, step, out Vector256<double> sin, out Vector256<double> cos, out Phasor four);
        Phasor eight = four * four;
        Vector256<double> next = (sin * four.Real) + (cos * four.Imaginary);
        Vector256<double> beforeNext = (sin * four.Real) - (cos * four.Imaginary);
        Vector256<double> before = (sin * eight.Real) - (cos * eight.Imaginary);
        var factor = Vector256.Create(2 * eight.Real);
        Span<Vector256<double>> s = MemoryMarshal.Cast<double, Vector256<double>>(sines);
        for (int i = 0; i + 1 < s.Length; i += 2)
        {
            s[i] = sin;
            s[i + 1] = next;
            (sin, before) = ((factor * sin) - before, sin);
            (next, beforeNext) = ((factor * next) - beforeNext, next);
        }
    }

    // Sine and cosine of the first four samples, and the turn from one four to the next.
    private static void Begin(Phasor from, Phasor step, out Vector256<double> sin, out Vector256<double> cos, out Phasor four)
    {
        Phasor two = step * step;
        Phasor three = two * step;
        four = two * two;
        var turnSin = Vector256.Create(0, step.Imaginary, two.Imaginary, three.Imaginary);
        var turnCos = Vector256.Create(1, step.Real, two.Real, three.Real);
        sin = (turnCos * from.Imaginary) + (turnSin * from.Real);
        cos = (turnCos * from.Real) - (turnSin * from.Imaginary);
    }
}
