// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>A constant and sines and cosines of an angle, its double and its triple, from the angle's own sine s and cosine c.</summary>
/// <remarks>
/// By the identities of multiple angles the sum is s · (a₀ + a₁ c + a₂ c²) + (b₀ + b₁ c + b₂ c² + b₃ c³), with a from the factors of the sines
/// and b from those of the cosines: sin 2x = 2 s c, sin 3x = s (4 c² − 1), cos 2x = 2 c² − 1, cos 3x = 4 c³ − 3 c.
/// </remarks>
internal readonly struct HarmonicSum
{
    private readonly double _a0;
    private readonly double _a1;
    private readonly double _a2;
    private readonly double _b0;
    private readonly double _b1;
    private readonly double _b2;
    private readonly double _b3;
    private readonly bool _hasCosines;

    /// <summary>Creates a sum.</summary>
    /// <param name="sine">Factors of the three sines; the fourth lane plays no part.</param>
    /// <param name="cosine">Factors of the three cosines, likewise.</param>
    /// <param name="level">The constant.</param>
    public HarmonicSum(Vector256<double> sine, Vector256<double> cosine, double level)
    {
        double s3 = sine.GetElement(2);
        double c1 = cosine.GetElement(0);
        double c2 = cosine.GetElement(1);
        double c3 = cosine.GetElement(2);
        _a0 = sine.GetElement(0) - s3;
        _a1 = 2 * sine.GetElement(1);
        _a2 = 4 * s3;
        _b0 = level - c2;
        _b1 = c1 - (3 * c3);
        _b2 = 2 * c2;
        _b3 = 4 * c3;
        _hasCosines = cosine != Vector256<double>.Zero;
    }

    /// <summary>The sum for an angle that lies further on by a constant.</summary>
    /// <param name="sine">Factors of the three sines of the angle further on.</param>
    /// <param name="cosine">Factors of its three cosines.</param>
    /// <param name="level">The constant.</param>
    /// <param name="turns">How much further on it lies [turns].</param>
    public static HarmonicSum Turned(Vector256<double> sine, Vector256<double> cosine, double level, double turns)
    {
        PortableMath.SinCosTurns(Vector256.Create(1.0, 2, 3, 4) * turns, out Vector256<double> sin, out Vector256<double> cos);
        return new HarmonicSum((sine * cos) - (cosine * sin), (sine * sin) + (cosine * cos), level);
    }

    /// <summary>Adds the sum to samples.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="sines">Sines of the angle, as many.</param>
    /// <param name="cosines">Cosines of the angle, as many.</param>
    public void Add(Span<double> buffer, ReadOnlySpan<double> sines, ReadOnlySpan<double> cosines)
    {
        sines = sines[..buffer.Length];
        cosines = cosines[..buffer.Length];
        if (_a1 == 0 && _a2 == 0 && _b2 == 0 && _b3 == 0)
        {
            AddFirst(buffer, sines, cosines);
            return;
        }

        ref double to = ref MemoryMarshal.GetReference(buffer);
        ref double sin = ref MemoryMarshal.GetReference(sines);
        ref double cos = ref MemoryMarshal.GetReference(cosines);
        var a0 = Vector256.Create(_a0);
        var a1 = Vector256.Create(_a1);
        var a2 = Vector256.Create(_a2);
        var b0 = Vector256.Create(_b0);
        var b1 = Vector256.Create(_b1);
        var b2 = Vector256.Create(_b2);
        var b3 = Vector256.Create(_b3);
        bool hasCosines = _hasCosines;
        int whole = buffer.Length & -4;
        for (nuint i = 0; i < (nuint)(uint)whole; i += 4)
        {
            Vector256<double> s = Vector256.LoadUnsafe(ref sin, i);
            Vector256<double> c = Vector256.LoadUnsafe(ref cos, i);
            Vector256<double> even = hasCosines ? b0 + (c * (b1 + (c * (b2 + (c * b3))))) : b0;
            (Vector256.LoadUnsafe(ref to, i) + ((s * (a0 + (c * (a1 + (c * a2))))) + even)).StoreUnsafe(ref to, i);
        }

        for (int i = whole; i < buffer.Length; i++)
        {
            double s = sines[i];
            double c = cosines[i];
            double even = _hasCosines ? _b0 + (c * (_b1 + (c * (_b2 + (c * _b3))))) : _b0;
            buffer[i] += (s * (_a0 + (c * (_a1 + (c * _a2))))) + even;
        }
    }

    // Of the angle alone: what is left of the same operations, so the same bits.
    private void AddFirst(Span<double> buffer, ReadOnlySpan<double> sines, ReadOnlySpan<double> cosines)
    {
        ref double to = ref MemoryMarshal.GetReference(buffer);
        ref double sin = ref MemoryMarshal.GetReference(sines);
        ref double cos = ref MemoryMarshal.GetReference(cosines);
        var a0 = Vector256.Create(_a0);
        var b0 = Vector256.Create(_b0);
        var b1 = Vector256.Create(_b1);
        int whole = buffer.Length & -4;
        for (nuint i = 0; i < (nuint)(uint)whole; i += 4)
        {
            Vector256<double> even = b0 + (b1 * Vector256.LoadUnsafe(ref cos, i));
            (Vector256.LoadUnsafe(ref to, i) + ((a0 * Vector256.LoadUnsafe(ref sin, i)) + even)).StoreUnsafe(ref to, i);
        }

        for (int i = whole; i < buffer.Length; i++)
        {
            buffer[i] += (_a0 * sines[i]) + (_b0 + (_b1 * cosines[i]));
        }
    }
}
