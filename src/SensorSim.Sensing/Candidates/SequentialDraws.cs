// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Uniform draws that are asked for one after the other: sixteen are made at a time, the same as one by one.</summary>
/// <remarks>Copied by value, draws included. Not to be passed by value while in use.</remarks>
/// <param name="random">Their source.</param>
internal struct SequentialDraws(KeyedRandom random)
{
    private const int Count = 16;
    private readonly KeyedRandom _random = random;
    private Words _words;
    private long _block = -1;

    /// <summary>A number from the open interval (0, 1), as <see cref="KeyedRandom.Uniform"/> gives it.</summary>
    /// <param name="index">Number of the draw, at least 0.</param>
    public double Uniform(long index)
    {
        long block = index / Count;
        if (block != _block)
        {
            _random.FillWords(_words, block * Count);
            _block = block;
        }

        return (_words[(int)(index % Count)] + 0.5) * (1.0 / 4294967296.0);
    }

    [InlineArray(Count)]
    private struct Words
    {
        private uint _first;
    }
}
