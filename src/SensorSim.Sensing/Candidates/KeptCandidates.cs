// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
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

    // (w + 1/2) / 2^32 lies below the share for so many words w: whole numbers and halves of them are exact here.
    private readonly ulong _keptWords = (ulong)Math.Ceiling((Math.Min(Math.Max(share, 0), 1) * 4294967296.0) - 0.5);
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
            from = NextKnown(from, out bool isKept);
            if (isKept)
            {
                return Math.Min(until, from);
            }
        }

        return until;
    }

    /// <summary>The first kept one from a candidate on, as far as one look goes.</summary>
    /// <param name="from">The candidate, at least 0.</param>
    /// <param name="isKept">Receives whether there is one.</param>
    /// <returns>Its number; if there is none, that of a later candidate before which none is kept.</returns>
    public long NextKnown(long from, out bool isKept)
    {
        long group = from / Sixteen;
        if (group != _group)
        {
            Look(group);
        }

        uint later = _kept >> (int)(from % Sixteen);
        isKept = later != 0;
        return isKept ? from + uint.TrailingZeroCount(later) : (group + 1) * Sixteen;
    }

    [SkipLocalsInit]
    private void Look(long group)
    {
        Span<uint> words = stackalloc uint[Sixteen * DrawsEach];
        _random.FillWords(words, group * words.Length);
        _group = group;
        uint kept = 0;
        for (int i = words.Length - DrawsEach + _draw; i >= 0; i -= DrawsEach)
        {
            // The sign of the difference: nothing to foretell.
            kept += kept + (uint)(unchecked(words[i] - _keptWords) >> 63);
        }

        _kept = kept;
    }
}
