// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
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
    private readonly Vector256<double>[] _factors;

    /// <summary>Prepares the lines.</summary>
    /// <param name="factors">Sine and cosine factor for each multiple; rows x, y, z.</param>
    /// <param name="directions">One direction or three.</param>
    public StrideLines(double[][] factors, Axes[] directions)
    {
        // In whole vectors: read from memory in the very multiplication.
        _factors = new Vector256<double>[directions.Length * Factors];
        for (int row = 0; row < directions.Length; row++)
        {
            double[] f = [.. Enumerable.Range(0, 2 * GaitShape.Lines).Select(i => directions[row].Dot(new Axes(factors[0][i], factors[1][i], factors[2][i])))];
            double[] own =
            [
                f[0], f[1],
                -f[5], f[3] - (3 * f[7]), 2 * f[5], 4 * f[7],
                f[2] - f[6], 2 * f[4], 4 * f[6],
            ];
            for (int i = 0; i < Factors; i++)
            {
                _factors[(row * Factors) + i] = Vector256.Create(own[i]);
            }
        }
    }

    /// <summary>Adds the lines to a block: phases in its turns, sizes in its spare array, varied by its gains if asked for.</summary>
    /// <param name="block">The block, along the directions of the lines.</param>
    /// <param name="phase">The phase of which the turns are.</param>
    /// <param name="isVaried">Whether the sizes are times the gains.</param>
    public void Add(MovementBlock block, StridePhase phase, bool isVaried)
    {
        ref Vector256<double> f = ref MemoryMarshal.GetArrayDataReference(_factors);
        ref double sizes = ref MemoryMarshal.GetArrayDataReference(block.Spare);
        ref double gains = ref MemoryMarshal.GetArrayDataReference(block.Gains);
        ref double one = ref MemoryMarshal.GetArrayDataReference(block.Rows[0]);
        bool isSingle = block.Rows.Length == 1;
        ref double two = ref isSingle ? ref one : ref MemoryMarshal.GetArrayDataReference(block.Rows[1]);
        ref double three = ref isSingle ? ref one : ref MemoryMarshal.GetArrayDataReference(block.Rows[2]);
        for (int i = 0; i < block.Count;)
        {
            var turning = new StrideTurning(block, phase, i, out int end);

            // Places of the loop's own, which can stay in registers.
            Vector256<double> sin = turning.Sin;
            Vector256<double> cos = turning.Cos;
            Vector256<double> firstSin = turning.FirstSin;
            Vector256<double> firstCos = turning.FirstCos;
            Vector256<double> secondSin = turning.SecondSin;
            Vector256<double> secondCos = turning.SecondCos;
            Vector256<double> thirdSin = turning.ThirdSin;
            Vector256<double> thirdCos = turning.ThirdCos;
            for (; i < end; i += 4)
            {
                Vector256<double> s1 = sin;
                Vector256<double> c1 = cos;
                StrideTurning.Turn(ref sin, ref cos, firstSin, firstCos);
                StrideTurning.Turn(ref firstSin, ref firstCos, secondSin, secondCos);
                StrideTurning.Turn(ref secondSin, ref secondCos, thirdSin, thirdCos);
                Vector256<double> s2 = 2 * (s1 * c1);
                Vector256<double> c2 = Vector256<double>.One - (2 * (s1 * s1));
                Vector256<double> size = Vector256.LoadUnsafe(ref sizes, (nuint)i);
                if (isVaried)
                {
                    size *= Vector256.LoadUnsafe(ref gains, (nuint)i);
                }

                AddRow(ref Unsafe.Add(ref one, i), ref f, size, s1, c1, s2, c2);
                if (!isSingle)
                {
                    AddRow(ref Unsafe.Add(ref two, i), ref Unsafe.Add(ref f, Factors), size, s1, c1, s2, c2);
                    AddRow(ref Unsafe.Add(ref three, i), ref Unsafe.Add(ref f, 2 * Factors), size, s1, c1, s2, c2);
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
        // Factors come second: they are read by the operation itself.
        Vector256<double> p = (c2 * ((c2 * ((c2 * Unsafe.Add(ref f, 5)) + Unsafe.Add(ref f, 4))) + Unsafe.Add(ref f, 3))) + Unsafe.Add(ref f, 2);
        Vector256<double> q = (c2 * ((c2 * Unsafe.Add(ref f, 8)) + Unsafe.Add(ref f, 7))) + Unsafe.Add(ref f, 6);
        Vector256<double> sum = ((s1 * f) + (c1 * Unsafe.Add(ref f, 1))) + (p + (s2 * q));
        (Vector256.LoadUnsafe(ref target) + (size * sum)).StoreUnsafe(ref target);
    }
}
