// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Which of a source's candidates are kept, looked up sixteen at a time: nearly always none of them is.</summary>
/// <remarks>What is remembered can be found again from the numbers alone: any order of questions gives the same answers. Copied by value.</remarks>
/// <param name="random">Their source; candidate k has draws 4k to 4k + 3.</param>
/// <param name="draw">Which of the four decides, 0 to 3.</param>
/// <param name="share">Share of the candidates that is kept, as <see cref="KeyedRandom.Uniform"/> below it.</param>
internal struct KeptCandidates(KeyedRandom random, int draw, double share)
{
    private const int DrawsEach = 4;
    private const int Sixteen = 16;
    private readonly KeyedRandom _random = random;
    private readonly int _draw = draw;
    private readonly double _share = share;
    private long _group = -1;
    private uint _kept;

    /// <summary>The first kept one in a range.</summary>
    /// <param name="from">First candidate of the range, at least 0.</param>
    /// <param name="until">First candidate after the range.</param>
    /// <returns>Its number, or <paramref name="until"/> when there is none.</returns>
    public long Next(long from, long until)
    {
        while (from < until)
        {
            if (from / Sixteen != _group)
            {
                Look(from / Sixteen);
            }

            uint later = _kept >> (int)(from % Sixteen);
            if (later != 0)
            {
                return Math.Min(until, from + uint.TrailingZeroCount(later));
            }

            from = (_group + 1) * Sixteen;
        }

        return until;
    }

    private void Look(long group)
    {
        Span<uint> words = stackalloc uint[Sixteen * DrawsEach];
        _random.FillWords(words, group * words.Length);
        _group = group;
        _kept = 0;
        for (int i = 0; i < Sixteen; i++)
        {
            // As KeyedRandom.Uniform.
            bool isKept = (words[(i * DrawsEach) + _draw] + 0.5) * (1.0 / 4294967296.0) < _share;
            _kept |= (isKept ? 1u : 0) << i;
        }
    }
}
