// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Vector additions that this thread gets done in a cycle, now: a core with two threads shares its width between them, so a neighbour shows here.</summary>
/// <remarks>A cycle is measured by a chain of additions, each waiting for the one before (one cycle each on every processor of today), the width by eight chains side by side.</remarks>
internal static class CoreShare
{
    private const int Rounds = 6000;
    private const int LinksPerRound = 16;
    private const int AddsPerRound = 32;

    /// <summary>Measures for some 0.1 ms.</summary>
    /// <returns>Additions of eight lanes per cycle.</returns>
    public static double Measure()
    {
        long a = Stopwatch.GetTimestamp();
        ulong sum = Chain(Rounds, 1, 3);
        long b = Stopwatch.GetTimestamp();
        Vector256<int> side = SideBySide(Rounds, Vector256.Create(1));
        long c = Stopwatch.GetTimestamp();
        GC.KeepAlive((sum, side) == (0ul, Vector256<int>.Zero) ? "" : null);
        double cycle = (double)(b - a) / (Rounds * LinksPerRound);
        return Rounds * AddsPerRound * cycle / (c - b);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static ulong Chain(int rounds, ulong x, ulong y)
    {
        for (int i = 0; i < rounds; i++)
        {
            x = (x + y) ^ y;
            x = (x + y) ^ y;
            x = (x + y) ^ y;
            x = (x + y) ^ y;
            x = (x + y) ^ y;
            x = (x + y) ^ y;
            x = (x + y) ^ y;
            x = (x + y) ^ y;
        }

        return x;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static Vector256<int> SideBySide(int rounds, Vector256<int> one)
    {
        Vector256<int> a = one, b = one, c = one, d = one, e = one, f = one, g = one, h = one;
        for (int i = 0; i < rounds; i++)
        {
            a += one; b += one; c += one; d += one; e += one; f += one; g += one; h += one;
            a += b; b += c; c += d; d += e; e += f; f += g; g += h; h += a;
            a += one; b += one; c += one; d += one; e += one; f += one; g += one; h += one;
            a += b; b += c; c += d; d += e; e += f; f += g; g += h; h += a;
        }

        return a + b + c + d + e + f + g + h;
    }
}
