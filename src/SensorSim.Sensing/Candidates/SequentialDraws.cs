// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Uniform draws that are asked for one after the other: sixteen are made at a time, the same as one by one.</summary>
/// <remarks>Copied by value, draws included. Not to be passed by value while in use.</remarks>
/// <param name="random">Their source.</param>
internal struct SequentialDraws(KeyedRandom random)
{
    /// <summary>Draws that are made at a time.</summary>
    public const int Count = 16;

    private readonly KeyedRandom _random = random;
    private Words _words;
    private long _block = -1;

    /// <summary>A number from the open interval (0, 1), as <see cref="KeyedRandom.Uniform"/> gives it.</summary>
    /// <param name="index">Number of the draw, at least 0.</param>
    public double Uniform(long index)
    {
        Make(index / Count);
        return At((int)(index % Count));
    }

    /// <summary>Which of sixteen draws lie below a limit.</summary>
    /// <param name="block">Draws 16 times this and the following ones.</param>
    /// <param name="limit">The limit.</param>
    /// <returns>Bit i belongs to the i-th of them.</returns>
    public uint Below(long block, double limit)
    {
        Make(block);

        // (w + 1/2) / 2^32 lies below the limit for so many words w: whole numbers and halves of them are exact here.
        double scaled = Math.Min(Math.Max(limit, 0), 1) * 4294967296.0;
        double whole = Math.Floor(scaled);
        whole += scaled - whole > 0.5 ? 1 : 0;
        if (whole >= 4294967296.0)
        {
            return (1u << Count) - 1;
        }

        var below = Vector256.Create((uint)whole);
        ReadOnlySpan<uint> words = _words;
        uint first = Vector256.LessThan(Vector256.Create(words), below).ExtractMostSignificantBits();
        return first | (Vector256.LessThan(Vector256.Create(words[Vector256<uint>.Count..]), below).ExtractMostSignificantBits() << Vector256<uint>.Count);
    }

    private readonly double At(int place) => (_words[place] + 0.5) * (1.0 / 4294967296.0);

    private void Make(long block)
    {
        if (block != _block)
        {
            _random.FillWords(_words, block * Count);
            _block = block;
        }
    }

    [InlineArray(Count)]
    private struct Words
    {
        private uint _first;
    }
}
