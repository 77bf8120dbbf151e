// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>The four words that decide on each candidate of an event, drawn for four candidates at a time and kept while they are near.</summary>
/// <remarks>Words are keyed by the candidate's number: whatever was asked for before, the same words come.</remarks>
internal sealed class CandidateWords(KeyedRandom random)
{
    /// <summary>Words of a candidate.</summary>
    public const int Each = 4;

    private const int Part = 4;
    private readonly uint[] _even = new uint[Part * Each];
    private readonly uint[] _odd = new uint[Part * Each];
    private long _evenPart = long.MinValue;
    private long _oddPart = long.MinValue;

    /// <summary>The words of a candidate: draws 4 k to 4 k + 3.</summary>
    /// <param name="k">Number of the candidate.</param>
    public ReadOnlySpan<uint> Of(long k)
    {
        long part = k >> 2;
        bool isEven = (part & 1) == 0;
        uint[] words = isEven ? _even : _odd;
        ref long held = ref isEven ? ref _evenPart : ref _oddPart;
        if (held != part)
        {
            random.FillWords(words, part * (Part * Each));
            held = part;
        }

        return words.AsSpan((int)(k - (part * Part)) * Each, Each);
    }
}
