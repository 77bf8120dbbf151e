// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    private const double LargestPlainAngle = 1e6;

    /// <summary>Sine of an angle in radians.</summary>
    /// <param name="x">Angle [rad], any size.</param>
    /// <returns>sin x within 0.9 ulp for every finite angle (slower beyond 1e6 rad); NaN for infinities and NaN.</returns>
    public static double Sin(double x)
    {
        if (!(Math.Abs(x) <= double.MaxValue))
        {
            return double.NaN;
        }

        if (Math.Abs(x) < 1e-8)
        {
            return x; // x³/6 is below half an ulp; keeps the sign of zero
        }

        double r = QuarterTurn(x, out double tail, out int quadrant);
        double value = (quadrant & 1) == 0 ? SinKernel(r, tail) : CosKernel(r, tail);
        return (quadrant & 2) == 0 ? value : -value;
    }

    /// <summary>Cosine of an angle in radians.</summary>
    /// <param name="x">Angle [rad], any size.</param>
    /// <returns>cos x within 0.9 ulp for every finite angle (slower beyond 1e6 rad); NaN for infinities and NaN.</returns>
    public static double Cos(double x)
    {
        if (!(Math.Abs(x) <= double.MaxValue))
        {
            return double.NaN;
        }

        double r = QuarterTurn(x, out double tail, out int quadrant);
        double value = (quadrant & 1) == 0 ? CosKernel(r, tail) : SinKernel(r, tail);
        return ((quadrant + 1) & 2) == 0 ? value : -value;
    }

    /// <summary>Takes off the nearest multiple of π/2: x = quadrant × π/2 + return value + tail, modulo a turn.</summary>
    private static double QuarterTurn(double x, out double tail, out int quadrant)
    {
        if (Math.Abs(x) > LargestPlainAngle)
        {
            return LargeAngle.Reduce(x, out tail, out quadrant);
        }

        // The first two parts of π/2 are taken off exactly, the third with its rounding error kept: no cancellation,
        // however near a multiple of π/2 the angle is.
        double shifted = (x * TwoOverPiDouble) + RoundingShift;
        double whole = shifted - RoundingShift;
        quadrant = (int)(Bits(shifted) & 3);
        double first = x - (whole * HalfPi1);
        double part = whole * HalfPi2;
        double second = first - part;
        double lost2 = (first - second) - part;
        part = whole * HalfPi3;
        double third = second - part;
        double lost3 = (second - third) - part;
        double small = (lost2 + lost3) - (whole * HalfPi4);
        double r = third + small;
        tail = (third - r) + small;
        return r;
    }

    /// <summary>Sine of r + tail for |r| up to π/4.</summary>
    private static double SinKernel(double r, double tail)
    {
        double z = r * r;
        double z2 = z * z;
        double rest = (SinC1 + (z * SinC2)) + (z2 * ((SinC3 + (z * SinC4)) + (z2 * SinC5)));
        double cube = z * r;
        return r + ((cube * SinC0) + ((cube * z * rest) + (tail * (1 - (0.5 * z)))));
    }

    /// <summary>Cosine of r + tail for |r| up to π/4.</summary>
    private static double CosKernel(double r, double tail)
    {
        double z = r * r;
        double z2 = z * z;
        double rest = ((CosC0 + (z * CosC1)) + (z2 * (CosC2 + (z * CosC3)))) + (z2 * z2 * (CosC4 + (z * CosC5)));
        double half = 0.5 * z;
        double head = 1 - half;
        double lost = (1 - head) - half;
        return head + (lost + ((z2 * rest) - (r * tail)));
    }
}
