// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>Sums from the first lane to each: what a recurrence of one addition a sample gives, for eight samples at once.</summary>
/// <remarks>For processors with AVX2; ask <see cref="Avx2.IsSupported"/> before.</remarks>
public static class RunningSum
{
    /// <summary>Sums from the first lane to each, <paramref name="before"/> included.</summary>
    /// <param name="values">Eight values.</param>
    /// <param name="before">The sum before the first of them, in every lane.</param>
    /// <returns>The sum that includes the value of each lane.</returns>
    /// <remarks>
    /// Input: 32 bits, any format; only the true sums have to fit, for they are exact modulo 2^32 in any order.
    /// Product: none.
    /// Accumulator: 32 bits.
    /// Worst case: the caller's to say.
    /// Output: exact, no rounding.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<int> Of(Vector256<int> values, Vector256<int> before)
    {
        // Within both halves first; then all of the upper half gets the last sum of the lower one.
        values += Avx2.ShiftLeftLogical128BitLane(values, 4);
        values += Avx2.ShiftLeftLogical128BitLane(values, 8);
        Vector256<int> lower = Avx2.Permute2x128(values, values, 0x08);
        return values + Avx2.Shuffle(lower, 0xFF) + before;
    }

    /// <summary>The last of eight values in every lane.</summary>
    /// <param name="values">Eight values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<int> Last(Vector256<int> values)
    {
        Vector256<int> last = Avx2.Shuffle(values, 0xFF);
        return Avx2.Permute2x128(last, last, 0x11);
    }
}
