// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
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
        uint bits = 0;
        for (int i = 0; i < Count; i++)
        {
            bits |= (At(i) < limit ? 1u : 0) << i;
        }

        return bits;
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
