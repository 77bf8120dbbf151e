// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>The four words that decide on each candidate of an event, drawn for sixteen candidates at a time and kept while they are near.</summary>
/// <remarks>Words are keyed by the candidate's number: whatever was asked for before, the same words come.</remarks>
/// <param name="random">Source of the words.</param>
/// <param name="mayAct">Whether a candidate may come to anything, by its words alone; mostly none does.</param>
internal sealed class CandidateWords(KeyedRandom random, Func<ReadOnlySpan<uint>, bool> mayAct)
{
    /// <summary>Words of a candidate.</summary>
    public const int Each = 4;

    private const int Part = 16;
    private readonly uint[] _words = new uint[2 * Part * Each];
    private uint _evenActs;
    private uint _oddActs;
    private long _evenPart = long.MinValue;
    private long _oddPart = long.MinValue;

    /// <summary>Whether a candidate may come to anything.</summary>
    /// <param name="k">Number of the candidate.</param>
    public bool MayAct(long k)
    {
        long part = Hold(k);
        return (((part & 1) == 0 ? _evenActs : _oddActs) >> (int)(k & (Part - 1)) & 1) != 0;
    }

    /// <summary>The words of a candidate: draws 4 k to 4 k + 3.</summary>
    /// <param name="k">Number of the candidate.</param>
    public ReadOnlySpan<uint> Of(long k)
    {
        Hold(k);
        return _words.AsSpan((int)(k & ((2 * Part) - 1)) * Each, Each);
    }

    private long Hold(long k)
    {
        long part = k >> 4;
        bool isEven = (part & 1) == 0;
        if ((isEven ? _evenPart : _oddPart) != part)
        {
            Span<uint> words = _words.AsSpan(isEven ? 0 : Part * Each, Part * Each);
            random.FillWords(words, part * words.Length);
            uint acts = 0;
            for (int i = 0; i < Part; i++)
            {
                acts |= mayAct(words.Slice(i * Each, Each)) ? 1u << i : 0;
            }

            (isEven ? ref _evenActs : ref _oddActs) = acts;
            (isEven ? ref _evenPart : ref _oddPart) = part;
        }

        return part;
    }
}
