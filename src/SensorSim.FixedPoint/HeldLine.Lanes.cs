// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>Samples that are held in a ring or lie in a stretch, as lanes want them: in the order of time, and eight from any place on.</summary>
/// <remarks><see cref="Codes"/> is for processors with AVX2; ask <see cref="Avx2.IsSupported"/> before.</remarks>
public static class HeldLine
{
    /// <summary>Turns a ring until its oldest sample lies first.</summary>
    /// <param name="held">The ring, a power of two long, 32 at most.</param>
    /// <param name="at">Place of the oldest, modulo the length.</param>
    public static void Turn(Span<int> held, int at)
    {
        Word32 turned = default;
        for (int i = 0; i < held.Length; i++)
        {
            turned[i] = held[unchecked(at + i) & (held.Length - 1)];
        }

        turned[..held.Length].CopyTo(held);
    }

    /// <summary>Eight codes of a stretch of eight at least; behind its end anything.</summary>
    /// <param name="codes">The stretch.</param>
    /// <param name="at">Place of the first.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<int> Codes(ReadOnlySpan<int> codes, int at)
    {
        ref int first = ref MemoryMarshal.GetReference(codes);
        int last = codes.Length - Lanes.Count;
        return at <= last
            ? Vector256.LoadUnsafe(ref first, (nuint)at)
            : Avx2.PermuteVar8x32(Vector256.LoadUnsafe(ref first, (nuint)last), Vector256<int>.Indices + Vector256.Create(at - last));
    }

    /// <summary>Writes values to consecutive places of a ring.</summary>
    /// <param name="held">The ring, a power of two long.</param>
    /// <param name="at">Place of the first, modulo the length.</param>
    /// <param name="line">The values, fewer than the ring is long.</param>
    public static void Append(Span<int> held, int at, ReadOnlySpan<int> line)
    {
        at &= held.Length - 1;
        int room = held.Length - at;
        if (line.Length <= room)
        {
            line.CopyTo(held[at..]);
        }
        else
        {
            line[..room].CopyTo(held[at..]);
            line[room..].CopyTo(held);
        }
    }
}
