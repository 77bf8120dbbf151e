// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>Products of 64 bits side by side.</content>
public static partial class NormalisedStep
{
    private static int EstimateLanes(in Word12 weights, in Word12 functions)
    {
        ref readonly int w = ref weights[0];
        ref readonly int u = ref functions[0];
        Vector256<long> w8 = Vector256.LoadUnsafe(in w).AsInt64();
        Vector256<long> u8 = Vector256.LoadUnsafe(in u).AsInt64();
        Vector128<long> w4 = Vector128.LoadUnsafe(in w, Lanes.Count).AsInt64();
        Vector128<long> u4 = Vector128.LoadUnsafe(in u, Lanes.Count).AsInt64();

        // The even words as they lie, the odd ones moved down.
        Vector256<long> eight = Avx2.Multiply(w8.AsInt32(), u8.AsInt32()) + Avx2.Multiply((w8 >>> 32).AsInt32(), (u8 >>> 32).AsInt32());
        Vector128<long> four = Sse41.Multiply(w4.AsInt32(), u4.AsInt32()) + Sse41.Multiply((w4 >>> 32).AsInt32(), (u4 >>> 32).AsInt32());
        four += eight.GetLower() + eight.GetUpper();
        return Wide.Narrow(Wide.Round(four.GetElement(0) + four.GetElement(1), WeightBits), EstimateRail);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool TryLearnLanes(Span<int> weights, ReadOnlySpan<int> functions, int error, int shift)
    {
        // Farther than that an arithmetic shift cannot be made of a logical one.
        const int MostShift = 62;
        if (weights.Length != Vector256<long>.Count || functions.Length != weights.Length || shift > MostShift)
        {
            return false;
        }

        ref int w = ref MemoryMarshal.GetReference(weights);
        Vector256<int> u = Avx2.ConvertToVector256Int64(Vector128.LoadUnsafe(ref MemoryMarshal.GetReference(functions))).AsInt32();

        // Raised by 2^62 no product is negative, so the logical shift rounds as the arithmetic one does; what was raised comes off behind it.
        const long Raised = 1L << MostShift;
        Vector256<long> product = Avx2.Multiply(u, Vector256.Create((long)error).AsInt32()) + Vector256.Create(Raised + ((1L << shift) >> 1));
        Vector256<long> moved = (product >>> shift) - Vector256.Create(Raised >> shift);
        moved += Avx2.ConvertToVector256Int64(Vector128.LoadUnsafe(ref w));
        moved = Vector256.Max(Vector256.Min(moved, Vector256.Create((long)WeightRail)), Vector256.Create(-(long)WeightRail));
        Avx2.PermuteVar8x32(moved.AsInt32(), Vector256<int>.Indices * 2).GetLower().StoreUnsafe(ref w);
        return true;
    }
}
