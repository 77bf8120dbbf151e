// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Conversion;

/// <summary>Words of the draws of samples, made for 256 of them at absolute places: whoever comes in short or odd pieces has none drawn twice.</summary>
/// <param name="random">Their source; draw i belongs to sample i.</param>
internal sealed class DrawnWords(KeyedRandom random)
{
    private readonly uint[] _words = new uint[DrawnNormals.Together];
    private long _first = -1;

    /// <summary>Words from a sample to the end of its 256.</summary>
    /// <param name="index">Index of the sample, at least 0.</param>
    public ReadOnlySpan<uint> From(long index)
    {
        long first = index & -DrawnNormals.Together;
        if (first != _first)
        {
            random.FillWords(_words, first);
            _first = first;
        }

        return _words.AsSpan((int)(index - first));
    }

    /// <summary>One that may be used by another thread.</summary>
    public DrawnWords Copy() => new(random);
}
