// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>The middle two of eight values.</summary>
/// <remarks>For processors with AVX2; ask <see cref="Avx2.IsSupported"/> before.</remarks>
public static class MiddleLanes
{
    /// <summary>The fourth and the fifth lowest of eight values.</summary>
    /// <param name="values">The values.</param>
    /// <param name="lower">The fourth.</param>
    /// <param name="upper">The fifth.</param>
    public static void Of(Vector256<int> values, out int lower, out int upper)
    {
        // How many others are lower, and how many higher, as negative counts: the values turn past each other.
        Vector256<int> fewer = Vector256<int>.Zero;
        Vector256<int> more = Vector256<int>.Zero;
        for (int turn = 1; turn < RunningSum.Lanes; turn++)
        {
            Vector256<int> other = Avx2.PermuteVar8x32(values, Vector256<int>.Indices + Vector256.Create(turn));
            fewer += Avx2.CompareGreaterThan(values, other);
            more += Avx2.CompareGreaterThan(other, values);
        }

        lower = Pick(values, fewer, -3, more, -4);
        upper = Pick(values, fewer, -4, more, -3);
    }

    // Equal values are all of the rank that is sought, or none is.
    private static int Pick(Vector256<int> values, Vector256<int> fewer, int mostFewer, Vector256<int> more, int mostMore)
    {
        Vector256<int> fits = Vector256.GreaterThanOrEqual(fewer, Vector256.Create(mostFewer)) & Vector256.GreaterThanOrEqual(more, Vector256.Create(mostMore));
        int at = BitOperations.TrailingZeroCount(fits.ExtractMostSignificantBits());
        return Avx2.PermuteVar8x32(values, Vector256.Create(at)).ToScalar();
    }
}
