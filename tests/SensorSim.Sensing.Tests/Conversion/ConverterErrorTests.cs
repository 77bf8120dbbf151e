// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Conversion;

/// <summary>Offset, gain error and bow of a converter.</summary>
public sealed class ConverterErrorTests
{
    private static readonly ConversionKeys s_keys = ConversionKeys.Ecg;

    [Test]
    public void Offset_OfSevenCodes_IsSevenCodesEverywhere()
    {
        double[] ramp = [.. Enumerable.Range(0, 4000).Select(i => (i * 0.73) - 1500)];
        int[] without = Converted.Of(new KeyValues(), Converted.Format(), ramp).Codes;
        int[] with = Converted.Of(new KeyValues().Set(s_keys.OffsetCodes, 7), Converted.Format(), ramp).Codes;

        // Ties to even may go the other way.
        Assert.That(with.Zip(without, (a, b) => a - b - 7).Max(Math.Abs), Is.LessThanOrEqualTo(1));
        Assert.That(with.Zip(without, (a, b) => a - b).Average(), Is.EqualTo(7).Within(1e-3));
    }

    [Test]
    public void Offset_BeyondARail_IsClampedAndFlagged()
    {
        Converted result = Converted.Of(new KeyValues().Set(s_keys.OffsetCodes, -10), Converted.Format(bits: 8), [-118.0, -119, 0]);
        Assert.That(result.Codes, Is.EqualTo(new[] { -128, -128, -10 }));
        Assert.That(result.Status, Is.EqualTo(new[] { 0, (int)SampleStatus.OverRange, 0 }));
    }

    // Gain acts about physical zero, which for light lies above the lowest code.
    [TestCase(true, 0)]
    [TestCase(false, 600)]
    public void GainError_OfTwoPercent_StretchesAboutPhysicalZero(bool isSigned, int zero)
    {
        ChannelName name = isSigned ? ChannelName.Ecg : ChannelName.Red;
        ConversionKeys keys = ConversionKeys.Of(name);
        int[] codes = Converted.Of(
            new KeyValues().Set(keys.GainErrorPercent, 2), Converted.Format(name, isSigned: isSigned, zero: zero, unit: 0.5), [0, 500, 5000, -100]).Codes;

        // In codes of half a unit: 1000 · 1.02, 10,000 · 1.02, −200 · 1.02.
        Assert.That(codes.Select(c => c - zero), Is.EqualTo(new[] { 0, 1020, 10200, -204 }));
    }

    // The parabola 8 (1 − u²): 8 in the middle, 6 half way, 3.5 at three quarters, 0 at the ends; beyond them nothing.
    [TestCase(true, 0)]
    [TestCase(false, 40)]
    public void Nonlinearity_OfEightCodes_IsABowOverTheRange(bool isSigned, int zero)
    {
        ChannelName name = isSigned ? ChannelName.Ecg : ChannelName.Red;
        ChannelFormat format = Converted.Format(name, bits: 12, isSigned: isSigned, zero: zero);
        double middle = format.MinimumCode + 2048 - zero;
        double[] places = [-1, -0.75, -0.5, 0, 0.5, 0.75];
        double[] analog = [.. places.Select(u => middle + (2048 * u))];
        int[] codes = Converted.Of(new KeyValues().Set(ConversionKeys.Of(name).NonlinearityCodes, 8), format, analog).Codes;
        int[] bow = [.. codes.Zip(analog, (c, a) => c - zero - (int)a)];
        Assert.That(bow, Is.EqualTo(new[] { 0, 4, 6, 8, 6, 4 }).Or.EqualTo(new[] { 0, 3, 6, 8, 6, 4 }), "3.5 rounds either way");
    }

    // sin² = (1 − cos 2x) / 2: a sine of a share A of the range through a bow of N gets a second harmonic of N A² / 2 (trigonometry).
    [Test]
    public void Nonlinearity_OfABow_MakesTheSecondHarmonic()
    {
        const double Share = 0.9;
        double[] sine = [.. Enumerable.Range(0, 50_000).Select(i => Share * 32768 * Math.Sin(2 * Math.PI * 7.0123 * i / 250))];
        int[] codes = Converted.Of(new KeyValues().Set(s_keys.NonlinearityCodes, 20), Converted.Format(), sine).Codes;
        double[] wave = Measure.WithoutMean([.. codes.Select(c => (double)c)]);
        Assert.That(Measure.Line(wave, 14.0246, 250).Magnitude, Is.EqualTo(20 * Share * Share / 2).Within(0.02));
        Assert.That(Measure.Line(wave, 21.0369, 250).Magnitude, Is.LessThan(0.02), "no third");
    }

    // Many samples go in lanes, single ones do not. A third lies beyond one of the rails, some of it far.
    [TestCase(true, "triangular")]
    [TestCase(true, "off")]
    [TestCase(false, "off")]
    public void Convert_BlocksOfAnyLength_GiveWhatSingleSamplesGive(bool hasErrors, string dither)
    {
        var random = new KeyedRandom(5, "tests.converter_lanes");
        double[] analog = [.. Enumerable.Range(0, 3000).Select(i => (random.Uniform(2 * i) - 0.5) * (random.Uniform((2 * i) + 1) < 0.05 ? 1e12 : 100_000))];
        KeyValues values = new KeyValues().Set(s_keys.Dither, dither);
        if (hasErrors)
        {
            values.Set(s_keys.OffsetCodes, -3.3).Set(s_keys.GainErrorPercent, 1.7).Set(s_keys.NonlinearityCodes, 11);
        }

        Converted single = Converted.Of(values, Converted.Format(), analog, block: 1);
        Assert.That(single.Status.Count(s => s != 0), Is.InRange(800, 1400));
        foreach (int block in new[] { 3, 7, 8, 9, 13, 61, 64, 100, 1000, 3000 })
        {
            Converted blocks = Converted.Of(values, Converted.Format(), analog, block: block);
            Assert.That(blocks.Codes, Is.EqualTo(single.Codes), $"blocks of {block}");
            Assert.That(blocks.Status, Is.EqualTo(single.Status), $"blocks of {block}");
        }
    }

    // Each converter has its own section.
    [Test]
    public void Offset_OfOneConverter_IsNoneOfTheOthersBusiness()
    {
        Recording off = Recording.Of(Settings.Everything(), 10);
        Recording on = Recording.Of(Settings.Everything().Set(ConversionKeys.Optics.OffsetCodes, 50), 10);
        foreach (ChannelFormat channel in off.Format.Channels)
        {
            bool isLight = ConversionKeys.Of(channel.Name) == ConversionKeys.Optics;
            Assert.That(
                on.Codes(channel.Name).Average() - off.Codes(channel.Name).Average(), Is.EqualTo(isLight ? 50 : 0).Within(isLight ? 0.5 : 0), channel.Name.Text());
        }
    }
}
