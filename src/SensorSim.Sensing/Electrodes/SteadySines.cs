// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Sines of a phase that rises in equal steps, eight samples at a time, from one sine and cosine each of phase and step.</summary>
/// <remarks>Stretches are whole groups of eight.</remarks>
internal static class SteadySines
{
    /// <summary>Samples that are made at once.</summary>
    public const int Group = 8;

    private const int Lanes = 4;

    /// <summary>Sine and cosine.</summary>
    /// <param name="from">Cosine and sine of the first sample's phase.</param>
    /// <param name="step">Cosine and sine of the step.</param>
    /// <param name="sines">Receives the sines.</param>
    /// <param name="cosines">Receives as many cosines.</param>
    public static void Fill(Phasor from, Phasor step, Span<double> sines, Span<double> cosines)
    {
        (Vector256<double> sin, Vector256<double> cos, Phasor four) = Begin(from, step);
        Phasor eight = four * four;
        Vector256<double> nextSin = (sin * four.Real) + (cos * four.Imaginary);
        Vector256<double> nextCos = (cos * four.Real) - (sin * four.Imaginary);
        var stepSin = Vector256.Create(eight.Imaginary);
        var stepCos = Vector256.Create(eight.Real);
        cosines = cosines[..sines.Length];
        ref double s = ref MemoryMarshal.GetReference(sines);
        ref double c = ref MemoryMarshal.GetReference(cosines);
        nuint whole = (nuint)(uint)(sines.Length & -Group);
        for (nuint i = 0; i < whole; i += Group)
        {
            sin.StoreUnsafe(ref s, i);
            cos.StoreUnsafe(ref c, i);
            nextSin.StoreUnsafe(ref s, i + Lanes);
            nextCos.StoreUnsafe(ref c, i + Lanes);
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
        (Vector256<double> sin, Vector256<double> cos, Phasor four) = Begin(from, step);
        Phasor eight = four * four;
        Vector256<double> next = (sin * four.Real) + (cos * four.Imaginary);
        Vector256<double> beforeNext = (sin * four.Real) - (cos * four.Imaginary);
        Vector256<double> before = (sin * eight.Real) - (cos * eight.Imaginary);
        var factor = Vector256.Create(2 * eight.Real);
        ref double s = ref MemoryMarshal.GetReference(sines);
        nuint whole = (nuint)(uint)(sines.Length & -Group);
        for (nuint i = 0; i < whole; i += Group)
        {
            sin.StoreUnsafe(ref s, i);
            next.StoreUnsafe(ref s, i + Lanes);
            (sin, before) = ((factor * sin) - before, sin);
            (next, beforeNext) = ((factor * next) - beforeNext, next);
        }
    }

    // Sine and cosine of the first four samples, and the turn from one four to the next.
    // Inlined: whoever gets them keeps them in registers.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> Sin, Vector256<double> Cos, Phasor Four) Begin(Phasor from, Phasor step)
    {
        Phasor two = step * step;
        Phasor three = two * step;
        Phasor four = two * two;
        var turnSin = Vector256.Create(0, step.Imaginary, two.Imaginary, three.Imaginary);
        var turnCos = Vector256.Create(1, step.Real, two.Real, three.Real);
        return ((turnCos * from.Imaginary) + (turnSin * from.Real), (turnCos * from.Real) - (turnSin * from.Imaginary), four);
    }
}
