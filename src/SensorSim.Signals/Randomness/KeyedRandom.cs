// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary>A named source of random numbers whose draws are asked for by index: any draw, any order, any thread, same value.</summary>
/// <remarks>
/// Draw i is word i mod 4 of Philox block i div 4: key = seed, counter words 0-1 = block, words 2-3 = hash of the name. So a
/// scenario's sources never disturb each other, and turning one knob moves no other draw.
/// </remarks>
public readonly struct KeyedRandom
{
    // Sixteen in lanes take as long as one after the other does for one.
    private const int LeastForLanes = 1;

    // A part of the first-level cache; a multiple of what the lanes draw.
    private const int WordsAtOnce = 64;

    private readonly ulong _seed;
    private readonly ulong _source;

    /// <summary>Creates a source.</summary>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="name">Name of the source; each source of the project has its own.</param>
    public KeyedRandom(ulong seed, string name)
    {
        _seed = seed;
        _source = SourceName.Hash(name);
    }

    /// <summary>32 random bits.</summary>
    /// <param name="index">Number of the draw; negative ones are allowed.</param>
    public uint Word(long index)
    {
        unchecked
        {
            Philox.Draw((ulong)(index >> 2), _source, _seed, out ulong low, out ulong high);
            ulong half = (index & 2) == 0 ? low : high;
            return (index & 1) == 0 ? (uint)half : (uint)(half >> 32);
        }
    }

    /// <summary>Words of consecutive draws: element i gets draw <paramref name="firstIndex"/> + i.</summary>
    /// <param name="words">Receives 32 random bits in each element.</param>
    /// <param name="firstIndex">Number of the first draw.</param>
    /// <remarks>Same bits as one by one, with and without vector instructions; allocates nothing.</remarks>
    public void FillWords(Span<uint> words, long firstIndex)
    {
        int head = (int)(firstIndex & 3);
        if (!FitsLanes(firstIndex, words.Length))
        {
            FillEach(words, firstIndex);
        }
        else if (head == 0 && words.Length == PhiloxLanes.Whole(words.Length))
        {
            PhiloxLanes.Store(words, Counter(firstIndex), _source, _seed);
        }
        else
        {
            FillParts(words, firstIndex, head);
        }
    }

    /// <summary>A number from the open interval (0, 1): (word + ½) / 2^32, never 0 or 1.</summary>
    /// <param name="index">Number of the draw.</param>
    public double Uniform(long index) => (Word(index) + 0.5) * (1.0 / 4294967296.0);

    /// <summary>A standard normal number, magnitude below 6.34.</summary>
    /// <param name="index">Number of the draw.</param>
    public double Normal(long index) => InverseNormal.FromWord(Word(index));

    /// <summary>Adds scaled standard normal numbers to a buffer: element i gets draw <paramref name="firstIndex"/> + i.</summary>
    /// <param name="buffer">Receives value + scale × draw.</param>
    /// <param name="firstIndex">Number of the first draw.</param>
    /// <param name="scale">Standard deviation of what is added.</param>
    /// <remarks>Same bits as one by one, with and without vector instructions; allocates nothing.</remarks>
    public void AddNormals(Span<double> buffer, long firstIndex, double scale)
    {
        if (FitsLanes(firstIndex, buffer.Length))
        {
            NormalLanes.Add(buffer, firstIndex, _source, _seed, scale);
            return;
        }

        for (int i = 0; i < buffer.Length;)
        {
            Philox.Draw(Counter(firstIndex + i), _source, _seed, out ulong low, out ulong high);
            for (int place = (int)((firstIndex + i) & 3); place < 4 && i < buffer.Length; place++, i++)
            {
                buffer[i] += scale * InverseNormal.FromWord(Part(low, high, place));
            }
        }
    }

    /// <summary>Writes scaled standard normal numbers to a buffer: the same as <see cref="AddNormals"/> to zeros.</summary>
    /// <param name="buffer">Receives scale × draw.</param>
    /// <param name="firstIndex">Number of the first draw.</param>
    /// <param name="scale">Standard deviation of what is written.</param>
    public void FillNormals(Span<double> buffer, long firstIndex, double scale)
    {
        if (FitsLanes(firstIndex, buffer.Length))
        {
            NormalLanes.Fill(buffer, firstIndex, _source, _seed, scale);
            return;
        }

        buffer.Clear();
        AddNormals(buffer, firstIndex, scale);
    }

    private void FillEach(Span<uint> words, long firstIndex)
    {
        for (int i = 0; i < words.Length;)
        {
            Philox.Draw(Counter(firstIndex + i), _source, _seed, out ulong low, out ulong high);
            for (int place = (int)((firstIndex + i) & 3); place < 4 && i < words.Length; place++, i++)
            {
                words[i] = Part(low, high, place);
            }
        }
    }

    // Whole counters are drawn, and the wanted words of them copied.
    [SkipLocalsInit]
    private void FillParts(Span<uint> words, long firstIndex, int head)
    {
        Unsafe.SkipInit(out Words drawn);
        Span<uint> room = drawn;
        for (int i = 0; i < words.Length;)
        {
            int count = Math.Min(words.Length - i, WordsAtOnce - head);
            PhiloxLanes.Store(room[..PhiloxLanes.Whole(head + count)], Counter(firstIndex + i), _source, _seed);
            room.Slice(head, count).CopyTo(words[i..]);
            i += count;
            head = 0;
        }
    }

    // Lanes count on: where the numbers of the draws run over, they would not.
    private static bool FitsLanes(long firstIndex, int count) =>
        Avx2.IsSupported && count > LeastForLanes && firstIndex < long.MaxValue - count - PhiloxLanes.WordCount;

    private static ulong Counter(long index) => unchecked((ulong)(index >> 2));

    private static uint Part(ulong low, ulong high, int place)
    {
        ulong half = place < 2 ? low : high;
        return unchecked((uint)(half >> (32 * (place & 1))));
    }

    [InlineArray(WordsAtOnce)]
    private struct Words
    {
        private uint _first;
    }
}
