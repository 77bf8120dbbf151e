// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary>A named source of random numbers whose draws are asked for by index: any draw, any order, any thread, same value.</summary>
/// <remarks>
/// Draw i is word i mod 4 of Philox block i div 4: key = seed, counter words 0-1 = block, words 2-3 = hash of the name. So a
/// scenario's sources never disturb each other, and turning one knob moves no other draw.
/// </remarks>
public readonly struct KeyedRandom
{
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
        int i = 0;
        for (; i < words.Length && ((firstIndex + i) & 3) != 0; i++)
        {
            words[i] = Word(firstIndex + i);
        }

        if (Avx2.IsSupported)
        {
            for (; i + PhiloxLanes.WordCount <= words.Length; i += PhiloxLanes.WordCount)
            {
                PhiloxLanes.Store(ref words[i], unchecked((ulong)((firstIndex + i) >> 2)), _source, _seed);
            }
        }

        for (; i < words.Length; i++)
        {
            words[i] = Word(firstIndex + i);
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
        int i = 0;
        for (; i < buffer.Length && ((firstIndex + i) & 3) != 0; i++)
        {
            buffer[i] += scale * Normal(firstIndex + i);
        }

        if (Avx2.IsSupported)
        {
            for (; i + NormalLanes.Count <= buffer.Length; i += NormalLanes.Count)
            {
                NormalLanes.Add(ref buffer[i], unchecked((ulong)((firstIndex + i) >> 2)), _source, _seed, scale);
            }
        }

        for (; i + 4 <= buffer.Length; i += 4)
        {
            Philox.Draw(unchecked((ulong)((firstIndex + i) >> 2)), _source, _seed, out ulong low, out ulong high);
            buffer[i] += scale * InverseNormal.FromWord(unchecked((uint)low));
            buffer[i + 1] += scale * InverseNormal.FromWord((uint)(low >> 32));
            buffer[i + 2] += scale * InverseNormal.FromWord(unchecked((uint)high));
            buffer[i + 3] += scale * InverseNormal.FromWord((uint)(high >> 32));
        }

        for (; i < buffer.Length; i++)
        {
            buffer[i] += scale * Normal(firstIndex + i);
        }
    }
}
