// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Movement;

/// <summary>Draws the lines at multiples 1, 2, 4 and 6 of a phase on three axes, four samples at once.</summary>
internal static class StrideLines
{
    /// <summary>Adds the lines to a block: phases in its turns, sizes in its spare array, varied by its gains if asked for.</summary>
    /// <param name="block">The block.</param>
    /// <param name="factors">Sine and cosine factor for each multiple; rows x, y, z.</param>
    /// <param name="isVaried">Whether the sizes are times the gains.</param>
    public static void Add(MovementBlock block, double[][] factors, bool isVaried)
    {
        ReadOnlySpan<double> fx = factors[0].AsSpan(0, 8);
        ReadOnlySpan<double> fy = factors[1].AsSpan(0, 8);
        ReadOnlySpan<double> fz = factors[2].AsSpan(0, 8);
        for (int i = 0; i < block.Count; i += 4)
        {
            PortableMath.SinCosTurns(Vector256.LoadUnsafe(ref block.Turns[i]), out Vector256<double> s1, out Vector256<double> c1);

            // Double angles, and 6 = 4 + 2.
            Vector256<double> s2 = 2 * (s1 * c1);
            Vector256<double> c2 = Vector256<double>.One - (2 * (s1 * s1));
            Vector256<double> s4 = 2 * (s2 * c2);
            Vector256<double> c4 = Vector256<double>.One - (2 * (s2 * s2));
            Vector256<double> s6 = (s4 * c2) + (c4 * s2);
            Vector256<double> c6 = (c4 * c2) - (s4 * s2);
            Vector256<double> size = Vector256.LoadUnsafe(ref block.Spare[i]);
            if (isVaried)
            {
                size *= Vector256.LoadUnsafe(ref block.Gains[i]);
            }

            AddAxis(ref block.X[i], fx, size, s1, c1, s2, c2, s4, c4, s6, c6);
            AddAxis(ref block.Y[i], fy, size, s1, c1, s2, c2, s4, c4, s6, c6);
            AddAxis(ref block.Z[i], fz, size, s1, c1, s2, c2, s4, c4, s6, c6);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddAxis(
        ref double target,
        ReadOnlySpan<double> f,
        Vector256<double> size,
        Vector256<double> s1,
        Vector256<double> c1,
        Vector256<double> s2,
        Vector256<double> c2,
        Vector256<double> s4,
        Vector256<double> c4,
        Vector256<double> s6,
        Vector256<double> c6)
    {
        Vector256<double> sum = (((f[0] * s1) + (f[1] * c1)) + ((f[2] * s2) + (f[3] * c2)))
            + (((f[4] * s4) + (f[5] * c4)) + ((f[6] * s6) + (f[7] * c6)));
        (Vector256.LoadUnsafe(ref target) + (size * sum)).StoreUnsafe(ref target);
    }
}
