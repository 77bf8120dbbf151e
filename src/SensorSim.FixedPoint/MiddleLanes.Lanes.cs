// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>The middle two of eight values.</summary>
/// <remarks>For processors with AVX2; ask <see cref="Avx2.IsSupported"/> before.</remarks>
public static class MiddleLanes
{
    private const byte ByOne = 0b_00_11_10_01;
    private const byte ByTwo = 0b_01_00_11_10;
    private const byte ByThree = 0b_10_01_00_11;

    /// <summary>The fourth and the fifth lowest of eight values.</summary>
    /// <param name="values">The values.</param>
    /// <param name="lower">The fourth.</param>
    /// <param name="upper">The fifth.</param>
    public static void Of(Vector256<int> values, out int lower, out int upper)
    {
        // How many others are lower, and how many higher, as negative counts: each turn of either half meets four others in its own half or in the other.
        Vector256<int> other = Avx2.Permute2x128(values, values, 0x01);
        Vector256<int> fewer = Avx2.CompareGreaterThan(values, other);
        Vector256<int> more = Avx2.CompareGreaterThan(other, values);
        Count(values, Avx2.Shuffle(values, ByOne), ref fewer, ref more);
        Count(values, Avx2.Shuffle(values, ByTwo), ref fewer, ref more);
        Count(values, Avx2.Shuffle(values, ByThree), ref fewer, ref more);
        Count(values, Avx2.Shuffle(other, ByOne), ref fewer, ref more);
        Count(values, Avx2.Shuffle(other, ByTwo), ref fewer, ref more);
        Count(values, Avx2.Shuffle(other, ByThree), ref fewer, ref more);
        lower = Pick(values, fewer, -3, more, -4);
        upper = Pick(values, fewer, -4, more, -3);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Count(Vector256<int> values, Vector256<int> other, ref Vector256<int> fewer, ref Vector256<int> more)
    {
        fewer += Avx2.CompareGreaterThan(values, other);
        more += Avx2.CompareGreaterThan(other, values);
    }

    // Equal values are all of the rank that is sought, or none is.
    private static int Pick(Vector256<int> values, Vector256<int> fewer, int mostFewer, Vector256<int> more, int mostMore)
    {
        Vector256<int> fits = Vector256.GreaterThanOrEqual(fewer, Vector256.Create(mostFewer)) & Vector256.GreaterThanOrEqual(more, Vector256.Create(mostMore));
        int at = BitOperations.TrailingZeroCount(fits.ExtractMostSignificantBits());
        return Avx2.PermuteVar8x32(values, Vector256.Create(at)).ToScalar();
    }
}
