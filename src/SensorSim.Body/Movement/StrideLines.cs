// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Movement;

/// <summary>The lines of a gait at multiples 1, 2, 4 and 6 of the stride along some directions, drawn four samples at once.</summary>
/// <remarks>
/// With s and c the sine and cosine of the step (multiple 2), multiples 2, 4 and 6 are P(c) + s Q(c): cos 2x = 2c² − 1, cos 3x = 4c³ − 3c,
/// sin 2x = 2sc, sin 3x = s(4c² − 1). Immutable.
/// </remarks>
internal sealed class StrideLines
{
    // Multiple 1: sine, cosine; then P from its constant up; then Q.
    private const int Factors = 9;
    private readonly double[] _factors;

    /// <summary>Prepares the lines.</summary>
    /// <param name="factors">Sine and cosine factor for each multiple; rows x, y, z.</param>
    /// <param name="directions">One direction or three.</param>
    public StrideLines(double[][] factors, Axes[] directions)
    {
        _factors = new double[directions.Length * Factors];
        for (int row = 0; row < directions.Length; row++)
        {
            double[] f = [.. Enumerable.Range(0, 2 * GaitShape.Lines).Select(i => directions[row].Dot(new Axes(factors[0][i], factors[1][i], factors[2][i])))];
            double[] own =
            [
                f[0], f[1],
                -f[5], f[3] - (3 * f[7]), 2 * f[5], 4 * f[7],
                f[2] - f[6], 2 * f[4], 4 * f[6],
            ];
            own.CopyTo(_factors, row * Factors);
        }
    }

    /// <summary>Adds the lines to a block: phases in its turns, sizes in its spare array, varied by its gains if asked for.</summary>
    /// <param name="block">The block, along the directions of the lines.</param>
    /// <param name="phase">The phase of which the turns are.</param>
    /// <param name="isVaried">Whether the sizes are times the gains.</param>
    public void Add(MovementBlock block, StridePhase phase, bool isVaried)
    {
        // In whole vectors: read from memory in the very multiplication.
        Span<Vector256<double>> f = stackalloc Vector256<double>[3 * Factors];
        for (int i = 0; i < _factors.Length; i++)
        {
            f[i] = Vector256.Create(_factors[i]);
        }

        bool isSingle = block.Rows.Length == 1;
        double[] one = block.Rows[0];
        double[] two = isSingle ? one : block.Rows[1];
        double[] three = isSingle ? one : block.Rows[2];
        for (int i = 0; i < block.Count;)
        {
            var turning = new StrideTurning(block, phase, i, out int end);
            for (; i < end; i += 4)
            {
                Vector256<double> s1 = turning.Sin;
                Vector256<double> c1 = turning.Cos;
                turning.Next();
                Vector256<double> s2 = 2 * (s1 * c1);
                Vector256<double> c2 = Vector256<double>.One - (2 * (s1 * s1));
                Vector256<double> size = Vector256.LoadUnsafe(ref block.Spare[i]);
                if (isVaried)
                {
                    size *= Vector256.LoadUnsafe(ref block.Gains[i]);
                }

                AddRow(ref one[i], ref f[0], size, s1, c1, s2, c2);
                if (!isSingle)
                {
                    AddRow(ref two[i], ref f[Factors], size, s1, c1, s2, c2);
                    AddRow(ref three[i], ref f[2 * Factors], size, s1, c1, s2, c2);
                }
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
        Vector256<double> c2)
    {
        Vector256<double> square = c2 * c2;
        Vector256<double> p = (Unsafe.Add(ref f, 2) + (Unsafe.Add(ref f, 3) * c2)) + ((Unsafe.Add(ref f, 4) + (Unsafe.Add(ref f, 5) * c2)) * square);
        Vector256<double> q = (Unsafe.Add(ref f, 6) + (Unsafe.Add(ref f, 7) * c2)) + (Unsafe.Add(ref f, 8) * square);
        Vector256<double> sum = ((f * s1) + (Unsafe.Add(ref f, 1) * c1)) + (p + (s2 * q));
        (Vector256.LoadUnsafe(ref target) + (size * sum)).StoreUnsafe(ref target);
    }
}
