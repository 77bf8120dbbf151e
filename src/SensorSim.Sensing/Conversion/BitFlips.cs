// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>Now and then a code with one bit turned over; status words are not touched.</summary>
internal sealed class BitFlips
{
    private readonly int _bits;
    private readonly bool _isSigned;
    private RareSamples _samples;

    private BitFlips(RareSamples samples, ChannelFormat format)
    {
        _samples = samples;
        _bits = format.Bits;
        _isSigned = format.IsSigned;
    }

    /// <summary>The bit flips of a channel, or null when it has none.</summary>
    public static BitFlips? Of(KeyValues values, ulong seed, ChannelFormat format)
    {
        double perMillion = values[ConversionKeys.Of(format.Name).BitFlipsPerMillion];
        var random = new KeyedRandom(seed, "conversion.bit_flips_" + "erigdxyz"[(int)format.Name]);
        return perMillion == 0 ? null : new BitFlips(new RareSamples(random, perMillion), format);
    }

    /// <summary>Turns bits over.</summary>
    /// <param name="codes">The codes.</param>
    /// <param name="firstIndex">Index of the first one.</param>
    public void Apply(Span<int> codes, long firstIndex)
    {
        long end = firstIndex + codes.Length;
        for (long at = _samples.Next(firstIndex, end, out uint spare); at < end; at = _samples.Next(at + 1, end, out spare))
        {
            ref int code = ref codes[(int)(at - firstIndex)];
            code = Flipped(code, (int)(((ulong)spare * (uint)_bits) >> 32));
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public BitFlips Copy() => (BitFlips)MemberwiseClone();

    // Within the word: two's complement of so many bits, or none of a sign.
    private int Flipped(int code, int bit)
    {
        int unused = 32 - _bits;
        uint word = unchecked((uint)(code ^ (1 << bit)) << unused);
        return _isSigned ? unchecked((int)word) >> unused : unchecked((int)(word >> unused));
    }
}
