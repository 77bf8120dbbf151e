// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>All sixteen slopes at once.</content>
public partial struct BeatTemplate
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Products(in Slopes16 one, in Slopes16 other) =>
        AcrossLanes.Sum(Avx2.MultiplyAddAdjacent(Vector256.LoadUnsafe(in one[0]), Vector256.LoadUnsafe(in other[0])));

    private static int Products(ReadOnlySpan<int> area, int from, in Slopes16 slopes)
    {
        ReadOnlySpan<int> sixteen = area.Slice(from, Slopes16.Length);
        return AcrossLanes.Sum(
            (Vector256.Create(sixteen) * Lower(slopes)) + (Vector256.Create(sixteen[Lanes.Count..]) * Upper(slopes)));
    }

    private static void Moments(in Slopes16 slopes, out int energy, out int first, out long second)
    {
        Vector256<int> lower = Lower(slopes);
        Vector256<int> upper = Upper(slopes);
        lower *= lower;
        upper *= upper;
        Vector256<int> atLower = Vector256<int>.Indices - Vector256.Create(7);
        Vector256<int> atUpper = Vector256<int>.Indices + Vector256.Create(1);
        energy = AcrossLanes.Sum(lower + upper);
        first = AcrossLanes.Sum(((lower >> 4) * atLower) + ((upper >> 4) * atUpper));

        // A square of 24 bits times 64: 30 bits, so two still fit without a sign, but not sixteen.
        second = AcrossLanes.WideSum((lower * (atLower * atLower)) + (upper * (atUpper * atUpper)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Lower(in Slopes16 slopes) => Vector256.WidenLower(Vector256.LoadUnsafe(in slopes[0]));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Upper(in Slopes16 slopes) => Vector256.WidenUpper(Vector256.LoadUnsafe(in slopes[0]));
}
