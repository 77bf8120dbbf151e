// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>One number out of eight or four, four out of eight.</summary>
/// <remarks>For processors with AVX2; ask <see cref="Avx2.IsSupported"/> before.</remarks>
public static class AcrossLanes
{
    private const byte OtherHalf = 0b_01_00_11_10;
    private const byte OtherOfTwo = 0b_10_11_00_01;

    /// <summary>The highest of eight values.</summary>
    /// <param name="values">The values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Highest(Vector256<int> values)
    {
        Vector128<int> four = Vector128.Max(values.GetLower(), values.GetUpper());
        four = Vector128.Max(four, Sse2.Shuffle(four, OtherHalf));
        return Vector128.Max(four, Sse2.Shuffle(four, OtherOfTwo)).ToScalar();
    }

    /// <summary>The lowest of eight values.</summary>
    /// <param name="values">The values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Lowest(Vector256<int> values)
    {
        Vector128<int> four = Vector128.Min(values.GetLower(), values.GetUpper());
        four = Vector128.Min(four, Sse2.Shuffle(four, OtherHalf));
        return Vector128.Min(four, Sse2.Shuffle(four, OtherOfTwo)).ToScalar();
    }

    /// <summary>The sum of eight values, exact modulo 2^32.</summary>
    /// <param name="values">The values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Sum(Vector256<int> values) => Sum(values.GetLower() + values.GetUpper());

    /// <summary>The sum of eight values that are not negative, in 64 bits.</summary>
    /// <param name="values">The values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static long WideSum(Vector256<int> values)
    {
        Vector256<long> wide = (values.AsInt64() & Vector256.Create(0xFFFFFFFFL)) + (values.AsInt64() >>> 32);
        Vector128<long> two = wide.GetLower() + wide.GetUpper();
        return two.GetElement(0) + two.GetElement(1);
    }

    /// <summary>The lower words of four double words.</summary>
    /// <param name="values">The double words.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<int> LowerHalves(Vector256<long> values) =>
        Avx2.PermuteVar8x32(values.AsInt32(), Vector256.Create(0, 2, 4, 6, 0, 2, 4, 6)).GetLower();

    /// <summary>The sum of four values, exact modulo 2^32.</summary>
    /// <param name="values">The values.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Sum(Vector128<int> values)
    {
        values += Sse2.Shuffle(values, OtherHalf);
        return (values + Sse2.Shuffle(values, OtherOfTwo)).ToScalar();
    }

    /// <summary>The sum of products of halves of a word, exact.</summary>
    /// <param name="one">One factor of each; a multiple of eight, at most 64.</param>
    /// <param name="other">The other one; as many. At most 2^13 in size, so that a lane can hold its part.</param>
    public static long Products(ReadOnlySpan<short> one, ReadOnlySpan<short> other)
    {
        ref short first = ref MemoryMarshal.GetReference(one);
        ref short second = ref MemoryMarshal.GetReference(other[..one.Length]);
        Vector128<int> sum = Vector128<int>.Zero;
        for (nuint i = 0; i < (nuint)(uint)one.Length; i += Lanes.Count)
        {
            sum += Sse2.MultiplyAddAdjacent(Vector128.LoadUnsafe(ref first, i), Vector128.LoadUnsafe(ref second, i));
        }

        return ((long)sum.ToScalar() + sum.GetElement(1)) + ((long)sum.GetElement(2) + sum.GetElement(3));
    }
}
