// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Movement;

/// <summary>A damped transient x²(3 − x)e^(−x) from x = 0 on, scaled to a peak of 1: up, back beyond zero, and gone; its integral is 0.</summary>
/// <remarks>
/// The derivative of x³e^(−x). Its Fourier transform is (6τ / peak) · jr / (1 + jr)^4 with r = 2π f τ, largest at r = 1/√3 (textbook
/// transform of t³e^(−t)). The form is a choice of this project.
/// </remarks>
internal static class Transient
{
    /// <summary>Where it ends, in time constants: below 3e-6 of its peak.</summary>
    public const double EndX = 22;

    // At x = 3 − √3 the derivative x(6 − 6x + x²)e^(−x) is zero for the first time.
    private static readonly double s_scale = 1 / Raw(3 - Math.Sqrt(3.0));

    /// <summary>The transient at a time in time constants.</summary>
    public static double At(double x) => x < 0 || x >= EndX ? 0 : s_scale * Raw(x);

    /// <summary>Adds a transient to a block.</summary>
    /// <param name="block">The block.</param>
    /// <param name="beginSeconds">When it begins [s].</param>
    /// <param name="tauSeconds">Its time constant τ [s].</param>
    /// <param name="size">Peaks along the axes [g].</param>
    public static void Add(MovementBlock block, double beginSeconds, double tauSeconds, Axes size)
    {
        int from = (int)Math.Max(0, block.Grid.FirstAtOrAfter(beginSeconds) - block.First);
        int to = (int)Math.Min(block.Count, block.Grid.FirstAtOrAfter(beginSeconds + (EndX * tauSeconds)) - block.First);
        if (from >= to)
        {
            return;
        }

        double begin = (block.Seconds(from) - beginSeconds) / tauSeconds;
        double step = block.Grid.StepSeconds / tauSeconds;
        double e = s_scale * PortableMath.Exp(-begin);
        double ratio = PortableMath.Exp(-step);
        Span<double> x = block.X.AsSpan(from, to - from);
        Span<double> y = block.Y.AsSpan(from, to - from);
        Span<double> z = block.Z.AsSpan(from, to - from);
        for (int i = 0; i < x.Length; i++)
        {
            double p = begin + (i * step);
            double h = p * p * (3 - p) * e;
            x[i] += size.X * h;
            y[i] += size.Y * h;
            z[i] += size.Z * h;
            e *= ratio;
        }
    }

    /// <summary>Fourier transform at a frequency [s].</summary>
    public static void Transform(double hertz, double tauSeconds, out double real, out double imaginary)
    {
        double r = 2 * Math.PI * hertz * tauSeconds;
        double re2 = 1 - (r * r);
        double im2 = 2 * r;
        double re4 = (re2 * re2) - (im2 * im2);
        double im4 = 2 * re2 * im2;
        double scale = 6 * tauSeconds * s_scale * r / ((re4 * re4) + (im4 * im4));

        // j / (re4 + j im4) = (im4 + j re4) / |.|²
        real = scale * im4;
        imaginary = scale * re4;
    }

    private static double Raw(double x) => x * x * (3 - x) * PortableMath.Exp(-x);
}
