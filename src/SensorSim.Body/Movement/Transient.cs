// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
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
    /// <param name="pace">How it goes on, with its time constant τ.</param>
    /// <param name="size">Peaks along the axes [g].</param>
    public static void Add(MovementBlock block, double beginSeconds, in TransientPace pace, Axes size)
    {
        int from = (int)Math.Max(0, block.Grid.FirstAtOrAfter(beginSeconds) - block.First);
        int to = (int)Math.Min(block.Count, block.Grid.FirstAtOrAfter(beginSeconds + (EndX * pace.TauSeconds)) - block.First);
        if (from >= to)
        {
            return;
        }

        bool isSingle = block.Rows.Length == 1;
        ref double one = ref MemoryMarshal.GetArrayDataReference(block.Rows[0]);
        ref double two = ref isSingle ? ref one : ref MemoryMarshal.GetArrayDataReference(block.Rows[1]);
        ref double three = ref isSingle ? ref one : ref MemoryMarshal.GetArrayDataReference(block.Rows[2]);
        double x = s_scale * block.Directions[0].Dot(size);
        double y = isSingle ? 0 : s_scale * block.Directions[1].Dot(size);
        double z = isSingle ? 0 : s_scale * block.Directions[2].Dot(size);
        var end = Vector256.Create(EndX);
        Vector256<double> place = (block.FourSeconds(from) - Vector256.Create(beginSeconds)) / Vector256.Create(pace.TauSeconds);

        // Four at a time from the first sample on; each lane turns its exponential by four samples.
        Vector256<double> e = ExpLanes.Exp(-Vector256.Min(place, end));
        var step = Vector256.Create(pace.Step);
        var ratio = Vector256.Create(pace.Ratio);
        for (int i = from; i < to; i += 4)
        {
            // Behind the end nothing is taken.
            Vector256<double> h = ((place * place) * (Vector256.Create(3.0) - place)) * e;
            h = Vector256.ConditionalSelect(Vector256.LessThan(place, end), h, Vector256<double>.Zero);
            place += step;
            e *= ratio;
            nuint at = (nuint)i;
            (Vector256.LoadUnsafe(ref one, at) + (h * x)).StoreUnsafe(ref one, at);
            if (!isSingle)
            {
                (Vector256.LoadUnsafe(ref two, at) + (h * y)).StoreUnsafe(ref two, at);
                (Vector256.LoadUnsafe(ref three, at) + (h * z)).StoreUnsafe(ref three, at);
            }
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
