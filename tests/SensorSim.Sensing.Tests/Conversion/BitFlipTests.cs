// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Conversion;

public sealed class BitFlipTests
{
    private const int Count = 2_000_000;

    // One candidate in 64 samples: n p, variance n p (1 − 64 p) (binomial). Bits even: chi-square with bits − 1 degrees of freedom, one in a
    // hundred thousand is 46.91 for 13 and 50.49 for 15 (scipy 1.10.1, chi2.ppf(0.99999, ...)).
    [TestCase(ChannelName.Ecg, true, 16, 4000, 50.49)]
    [TestCase(ChannelName.AccelY, true, 14, 9000, 46.91)]
    [TestCase(ChannelName.Green, false, 16, 4000, 50.49)]
    public void Flips_PerMillion_AreTheKnobAndOneBitEach(ChannelName name, bool isSigned, int bits, double perMillion, double chiSquare)
    {
        ChannelFormat format = Converted.Format(name, bits, isSigned: isSigned);
        double[] values = [.. Enumerable.Range(0, Count).Select(i => (double)(format.MinimumCode + ((i * 7919L) % (1L << bits))))];
        int[] codes = Converted.Of(new KeyValues().Set(ConversionKeys.Of(name).BitFlipsPerMillion, perMillion), format, values).Codes;
        double[] counts = new double[bits];
        for (int i = 0; i < Count; i++)
        {
            // Two's complement of so many bits: the lower bits of the integers.
            uint differs = (uint)(codes[i] ^ (int)values[i]) & ((1u << bits) - 1);
            if (codes[i] != (int)values[i])
            {
                Assert.That(BitOperations.PopCount(differs), Is.EqualTo(1), $"sample {i}");
                counts[BitOperations.Log2(differs)]++;
            }
        }

        double expected = Count * perMillion * 1e-6;
        Assert.That(counts.Sum(), Is.EqualTo(expected).Within(4 * Math.Sqrt(expected * (1 - (64e-6 * perMillion)))));
        Assert.That(codes.Min(), Is.GreaterThanOrEqualTo(format.MinimumCode));
        Assert.That(codes.Max(), Is.LessThanOrEqualTo(format.MaximumCode));
        double each = counts.Sum() / bits;
        Assert.That(counts.Sum(c => (c - each) * (c - each) / each), Is.LessThan(chiSquare));
    }

    [Test]
    public void Flips_More_AddsToThoseThatWereThere()
    {
        double[] values = new double[Count];
        int[] few = Converted.Of(new KeyValues().Set(ConversionKeys.Ecg.BitFlipsPerMillion, 300), Converted.Format(), values).Codes;
        int[] many = Converted.Of(new KeyValues().Set(ConversionKeys.Ecg.BitFlipsPerMillion, 3000), Converted.Format(), values).Codes;
        Assert.That(few.Zip(many).Count(p => p.First != 0 && p.First != p.Second), Is.Zero);
        Assert.That(many.Count(c => c != 0), Is.GreaterThan(5 * few.Count(c => c != 0)));
    }
}
