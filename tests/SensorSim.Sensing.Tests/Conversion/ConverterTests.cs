// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Conversion;

public sealed class ConverterTests
{
    private const ushort Over = (ushort)SampleStatus.OverRange;

    // Ideal converter: 6.02 N + 1.76 dB (Bennett, Bell System Technical Journal 27:446, 1948; textbook); it holds for many bits.
    [TestCase(12, 74.00)]
    [TestCase(16, 98.08)]
    [TestCase(18, 110.12)]
    [TestCase(19, 116.14)]
    [TestCase(22, 134.20)]
    public void Convert_FullScaleSine_HasTheNoiseOfAnIdealConverter(int bits, double decibel)
    {
        double full = (1 << (bits - 1)) - 0.5 - 1e-6;
        double[] sine = [.. Enumerable.Range(0, 1_000_000).Select(i => full * Math.Sin(i * 0.1234567))];
        int[] codes = Convert(Format(bits, true), sine, out ushort[] status);
        double[] error = [.. codes.Zip(sine, (c, v) => c - v)];
        double ratio = 10 * Math.Log10(sine.Average(v => v * v) / error.Average(v => v * v));
        Assert.That(ratio, Is.EqualTo(decibel).Within(0.1));
        Assert.That(status, Has.All.Zero);
    }

    [Test]
    public void Convert_AnyValues_ErrorIsUniformOverOneCode()
    {
        const int Count = 400_000;
        const double Unit = 0.037;
        var random = new KeyedRandom(3, "tests.converter");
        double[] values = [.. Enumerable.Range(0, Count).Select(i => (random.Uniform(i) - 0.5) * 1000)];
        double[] error = [.. Convert(Format(16, true) with { UnitPerCode = Unit }, values, out _).Zip(values, (c, v) => c - (v / Unit))];

        // Variance of the uniform distribution 1/12; its standard error √((1/80 − 1/144)/n) (Bennett 1948; textbook).
        Assert.That(error.Average(e => e * e), Is.EqualTo(1.0 / 12).Within(4 * Math.Sqrt(((1.0 / 80) - (1.0 / 144)) / Count)));
        Assert.That(error.Average(), Is.EqualTo(0).Within(4 / Math.Sqrt(12.0 * Count)));

        // Pearson's chi-square over 64 equal bins; 63 degrees of freedom, one in a hundred thousand.
        double[] counts = new double[64];
        foreach (double e in error)
        {
            counts[Math.Clamp((int)Math.Floor((e + 0.5) * 64), 0, 63)]++;
        }

        double expected = Count / 64.0;
        Assert.That(counts.Sum(c => (c - expected) * (c - expected) / expected), Is.LessThan(ChiSquared.InvCDF(63, 0.99999)));
    }

    // Ties to even: roundTiesToEven of IEEE 754-2019, 4.3.1.
    [TestCase(0.5, 0)]
    [TestCase(1.5, 2)]
    [TestCase(2.5, 2)]
    [TestCase(3.5, 4)]
    [TestCase(-0.5, 0)]
    [TestCase(-1.5, -2)]
    [TestCase(-2.5, -2)]
    [TestCase(2.4999999, 2)]
    [TestCase(2.5000001, 3)]
    [TestCase(0, 0)]
    [TestCase(-0.0, 0)]
    public void Convert_Ties_GoToTheEvenCode(double value, int code)
    {
        Assert.That(Convert(Format(8, true), [value], out ushort[] status), Is.EqualTo(new[] { code }));
        Assert.That(status[0], Is.Zero);
    }

    // Two's complement of 8 bit: −128 to 127 (textbook). 127.5 rounds to 128 and −128.5 to −128.
    [TestCase(true, 127.0, 127, 0)]
    [TestCase(true, 127.49, 127, 0)]
    [TestCase(true, 127.5, 127, Over)]
    [TestCase(true, 300.0, 127, Over)]
    [TestCase(true, 1e300, 127, Over)]
    [TestCase(true, double.PositiveInfinity, 127, Over)]
    [TestCase(true, -128.5, -128, 0)]
    [TestCase(true, -128.51, -128, Over)]
    [TestCase(true, -1e300, -128, Over)]
    [TestCase(false, 255.0, 255, 0)]
    [TestCase(false, 255.49, 255, 0)]
    [TestCase(false, 255.5, 255, Over)]
    [TestCase(false, -0.5, 0, 0)]
    [TestCase(false, -0.51, 0, Over)]
    [TestCase(false, double.NegativeInfinity, 0, Over)]
    public void Convert_BeyondARail_IsClampedAndFlagged(bool isSigned, double value, int code, int flag)
    {
        Assert.That(Convert(Format(8, isSigned), [value], out ushort[] status), Is.EqualTo(new[] { code }));
        Assert.That(status[0], Is.EqualTo(flag));
    }

    [Test]
    public void Convert_StatusThatIsThere_KeepsItsFlags()
    {
        ushort[] status = [(ushort)SampleStatus.LeadOffPositive, (ushort)SampleStatus.LeadOffPositive];
        new Converter(Format(8, true)).Convert([999, 0], new int[2], status);
        Assert.That(status, Is.EqualTo(new[] { (ushort)(SampleStatus.LeadOffPositive | SampleStatus.OverRange), (ushort)SampleStatus.LeadOffPositive }));
    }

    [Test]
    public void Converter_OtherPolarity_IsRefused() =>
        Assert.That(() => new Converter(Format(8, true) with { Polarity = -1 }), Throws.ArgumentException);

    [Test]
    public void Convert_ZeroCode_ShiftsEveryCodeAndClampsAtTheSameRails()
    {
        int[] codes = Convert(Format(8, false) with { ZeroCode = 20 }, [0, -20, -21, 3.5, 235, 236], out ushort[] status);
        Assert.That(codes, Is.EqualTo(new[] { 20, 0, 0, 24, 255, 255 }));
        Assert.That(status, Is.EqualTo(new[] { 0, 0, (int)SampleStatus.OverRange, 0, 0, (int)SampleStatus.OverRange }));
    }

    private static ChannelFormat Format(int bits, bool isSigned) => new()
    {
        Name = ChannelName.Ecg, Device = "sensor", RateHz = 250, Bits = bits, IsSigned = isSigned, UnitPerCode = 1,
    };

    private static int[] Convert(ChannelFormat format, double[] values, out ushort[] status)
    {
        int[] codes = new int[values.Length];
        status = new ushort[values.Length];
        new Converter(format).Convert(values, codes, status);
        return codes;
    }
}
