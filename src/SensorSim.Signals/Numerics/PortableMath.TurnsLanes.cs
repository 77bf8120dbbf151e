// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    /// <summary>Sines and cosines of four angles in turns: the same operations in the same order as one by one, so the same bits.</summary>
    /// <param name="turns">Angles [turns], magnitudes below 2^49.</param>
    /// <param name="sin">Receives the sines.</param>
    /// <param name="cos">Receives the cosines.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void SinCosTurns(Vector256<double> turns, out Vector256<double> sin, out Vector256<double> cos)
    {
        var shift = Vector256.Create(RoundingShift);
        Vector256<double> shifted = (turns * 4) + shift;
        Vector256<double> f = turns - ((shifted - shift) * 0.25);
        Vector256<long> quadrant = shifted.AsInt64();
        Vector256<double> z = f * f;
        Vector256<double> z2 = z * z;
        Vector256<double> s = ((Vector256.Create(TurnSinC0) + (z * TurnSinC1)) + (z2 * (Vector256.Create(TurnSinC2) + (z * TurnSinC3))))
            + (z2 * z2 * (Vector256.Create(TurnSinC4) + (z * TurnSinC5)));
        Vector256<double> c = ((Vector256.Create(TurnCosC1) + (z * TurnCosC2)) + (z2 * (Vector256.Create(TurnCosC3) + (z * TurnCosC4))))
            + (z2 * z2 * (Vector256.Create(TurnCosC5) + (z * TurnCosC6)));
        s = (f * TwoPiHi) + (f * (Vector256.Create(TwoPiLo) + (z * s)));
        c = Vector256<double>.One + ((z * TurnCosC0) + (z2 * c));
        Vector256<long> swap = (s.AsInt64() ^ c.AsInt64()) & -(quadrant & Vector256<long>.One);
        var two = Vector256.Create(2L);
        sin = (s.AsInt64() ^ swap ^ ((quadrant & two) << 62)).AsDouble();
        cos = (c.AsInt64() ^ swap ^ (((quadrant + Vector256<long>.One) & two) << 62)).AsDouble();
    }
}
