// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    private const double LargestPlainTurns = 562949953421312.0; // 2^49

    /// <summary>Sine and cosine of an angle in turns; whole turns are taken off exactly, however many there are.</summary>
    /// <param name="turns">Angle [turns] (1 turn = 2π rad), any finite value.</param>
    /// <param name="sin">Receives the sine, absolute error below 1.3e-16 (relative below 1.6 ulp); exact at quarter turns.</param>
    /// <param name="cos">Receives the cosine, with the same bounds.</param>
    /// <remarks>Infinities and NaN give NaN.</remarks>
    public static void SinCosTurns(double turns, out double sin, out double cos)
    {
        if (!(Math.Abs(turns) < LargestPlainTurns))
        {
            turns -= Math.Round(turns);
            if (IsNaN(turns))
            {
                sin = double.NaN;
                cos = double.NaN;
                return;
            }
        }

        double shifted = (turns * 4) + RoundingShift;
        double f = turns - ((shifted - RoundingShift) * 0.25);
        long quadrant = Bits(shifted);
        double z = f * f;
        double z2 = z * z;
        double s = ((TurnSinC0 + (z * TurnSinC1)) + (z2 * (TurnSinC2 + (z * TurnSinC3)))) + (z2 * z2 * (TurnSinC4 + (z * TurnSinC5)));
        double c = ((TurnCosC1 + (z * TurnCosC2)) + (z2 * (TurnCosC3 + (z * TurnCosC4)))) + (z2 * z2 * (TurnCosC5 + (z * TurnCosC6)));
        s = (f * TwoPiHi) + (f * (TwoPiLo + (z * s)));
        c = 1 + ((z * TurnCosC0) + (z2 * c));

        // Odd quarter turns swap the two, and signs follow the quadrant: by bit masks, since the quadrant is unpredictable.
        long swap = (Bits(s) ^ Bits(c)) & -(quadrant & 1);
        sin = FromBits(Bits(s) ^ swap ^ ((quadrant & 2) << 62));
        cos = FromBits(Bits(c) ^ swap ^ (((quadrant + 1) & 2) << 62));
    }
}
