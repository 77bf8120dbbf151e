// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Movement;

/// <summary>Draws the lines at multiples 1, 2, 4 and 6 of a phase along each direction of a block, four samples at once.</summary>
internal static class StrideLines
{
    private const int Factors = 2 * GaitShape.Lines;

    /// <summary>Adds the lines to a block: phases in its turns, sizes in its spare array, varied by its gains if asked for.</summary>
    /// <param name="block">The block, along one direction or three.</param>
    /// <param name="factors">Sine and cosine factor for each multiple; rows x, y, z.</param>
    /// <param name="isVaried">Whether the sizes are times the gains.</param>
    public static void Add(MovementBlock block, double[][] factors, bool isVaried)
    {
        // In whole vectors: read from memory in the very multiplication.
        Span<Vector256<double>> f = stackalloc Vector256<double>[3 * Factors];
        for (int row = 0; row < block.Rows.Length; row++)
        {
            for (int i = 0; i < Factors; i++)
            {
                f[(row * Factors) + i] = Vector256.Create(block.Directions[row].Dot(new Axes(factors[0][i], factors[1][i], factors[2][i])));
            }
        }

        bool isSingle = block.Rows.Length == 1;
        double[] one = block.Rows[0];
        double[] two = isSingle ? one : block.Rows[1];
        double[] three = isSingle ? one : block.Rows[2];
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

            AddRow(ref one[i], ref f[0], size, s1, c1, s2, c2, s4, c4, s6, c6);
            if (!isSingle)
            {
                AddRow(ref two[i], ref f[Factors], size, s1, c1, s2, c2, s4, c4, s6, c6);
                AddRow(ref three[i], ref f[2 * Factors], size, s1, c1, s2, c2, s4, c4, s6, c6);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddRow(
        ref double target,
        ref Vector256<double> f,
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
        Vector256<double> sum = (((f * s1) + (Unsafe.Add(ref f, 1) * c1)) + ((Unsafe.Add(ref f, 2) * s2) + (Unsafe.Add(ref f, 3) * c2)))
            + (((Unsafe.Add(ref f, 4) * s4) + (Unsafe.Add(ref f, 5) * c4)) + ((Unsafe.Add(ref f, 6) * s6) + (Unsafe.Add(ref f, 7) * c6)));
        (Vector256.LoadUnsafe(ref target) + (size * sum)).StoreUnsafe(ref target);
    }
}
