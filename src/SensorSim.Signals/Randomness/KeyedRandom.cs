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
    [SkipLocalsInit]
    public void FillWords(Span<uint> words, long firstIndex)
    {
        int i = 0;
        if (FitsLanes(firstIndex, words.Length))
        {
            // Whole counters are drawn; what fits is stored at once, of the others the wanted words are copied.
            Span<uint> room = stackalloc uint[WordsAtOnce];
            int head = (int)(firstIndex & 3);
            while (words.Length - i > LeastForLanes)
            {
                int count = Math.Min(words.Length - i, WordsAtOnce - head);
                int whole = PhiloxLanes.Whole(head + count);
                if (whole == count)
                {
                    PhiloxLanes.Store(words.Slice(i, count), Counter(firstIndex + i), _source, _seed);
                }
                else
                {
                    PhiloxLanes.Store(room[..whole], Counter(firstIndex + i), _source, _seed);
                    room.Slice(head, count).CopyTo(words[i..]);
                }

                i += count;
                head = 0;
            }
        }

        while (i < words.Length)
        {
            Philox.Draw(Counter(firstIndex + i), _source, _seed, out ulong low, out ulong high);
            for (int place = (int)((firstIndex + i) & 3); place < 4 && i < words.Length; place++, i++)
            {
                words[i] = Part(low, high, place);
            }
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
    [SkipLocalsInit]
    public void AddNormals(Span<double> buffer, long firstIndex, double scale)
    {
        int i = 0;
        if (FitsLanes(firstIndex, buffer.Length))
        {
            // Whole counters are drawn, the last ones beyond what is wanted; the words before the first wanted one are left out.
            Span<uint> words = stackalloc uint[WordsAtOnce + 4];
            int head = (int)(firstIndex & 3);
            while (buffer.Length - i > LeastForLanes)
            {
                int count = Draw(words, head, buffer.Length - i, firstIndex + i);
                NormalLanes.Add(buffer.Slice(i, count), words[head..], scale);
                i += count;
                head = 0;
            }
        }

        while (i < buffer.Length)
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
    [SkipLocalsInit]
    public void FillNormals(Span<double> buffer, long firstIndex, double scale)
    {
        if (!FitsLanes(firstIndex, buffer.Length))
        {
            buffer.Clear();
            AddNormals(buffer, firstIndex, scale);
            return;
        }

        Span<uint> words = stackalloc uint[WordsAtOnce + 4];
        int head = (int)(firstIndex & 3);
        for (int i = 0; i < buffer.Length;)
        {
            int count = Draw(words, head, buffer.Length - i, firstIndex + i);
            NormalLanes.Fill(buffer.Slice(i, count), words[head..], scale);
            i += count;
            head = 0;
        }
    }

    // Words of whole counters, of which the first ones may not be wanted.
    private int Draw(Span<uint> words, int head, int wanted, long index)
    {
        int count = Math.Min(wanted, WordsAtOnce - head);
        PhiloxLanes.Store(words[..PhiloxLanes.Whole(head + count)], Counter(index), _source, _seed);
        return count;
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
}
