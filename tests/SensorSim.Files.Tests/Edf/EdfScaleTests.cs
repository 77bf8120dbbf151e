// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Files.Edf;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Edf;

/// <summary>Scales in the header, seen from outside: header and formula of Kemp et al. 1992.</summary>
public class EdfScaleTests
{
    // Full scales over 2^bits codes, decimal units per code, full 24 bits with decimal units: exact. A range of 2^24 codes cannot be: its end is one too high.
    [TestCase(ChannelName.Ecg, 18, true, 4.8 / (1 << 18), 0, ExpectedResult = "-2.4 2.4 mV -131072 131072")]
    [TestCase(ChannelName.Ecg, 16, true, 10.0 / (1 << 16), 0, ExpectedResult = "-5 5 mV -32768 32768")]
    [TestCase(ChannelName.Red, 19, false, 8192.0 / (1 << 19), 0, ExpectedResult = "0 8192 nA -262144 262144")]
    [TestCase(ChannelName.Red, 19, false, 8192.0 / (1 << 19), 64, ExpectedResult = "-1 8191 nA -262144 262144")]
    [TestCase(ChannelName.Ecg, 24, true, 0.001, 0, ExpectedResult = "-8388608 8388607 uV -8388608 8388607")]
    [TestCase(ChannelName.AccelX, 16, true, 16.0 / (1 << 16), 0, ExpectedResult = "-8 8 g -32768 32768")]
    [TestCase(ChannelName.Ecg, 20, true, 0.000123, 0, ExpectedResult = "-64.4889 64.48767 mV -524300 524290")]
    [TestCase(ChannelName.Ecg, 12, true, 0.0005, 0, ExpectedResult = "-1.024 1.0235 mV -2048 2047")]
    [TestCase(ChannelName.Ecg, 24, true, 4.8 / (1 << 24), 0, ExpectedResult = "-2.4 2.4 mV -8388608 8388607")]
    public string Write_Scale_IsExactWhereEightCharactersAllow(ChannelName name, int bits, bool isSigned, double unit, int zero)
    {
        EdfSignal s = Written(EdfStreams.Channel(name, 100, bits, isSigned, unit, zero), out _);
        return FormattableString.Invariant($"{s.PhysicalMinimum} {s.PhysicalMaximum} {s.Dimension} {s.DigitalMinimum} {s.DigitalMaximum}");
    }

    [Test]
    public void Write_ScaleThatIsNotExact_IsNotedWithItsError()
    {
        Written(EdfStreams.Channel(ChannelName.Ecg, 100, 24, true, 4.8 / (1 << 24)), out EdfRecordingWriter writer);

        // One code in 2^24 - 1: 0.06 ppm.
        Assert.That(writer.Notes.Single(), Does.Contain("ecg:").And.Contain("0.06 ppm off").And.Contain("the codes are exact"));
    }

    // Whatever the scale: the formula on the header gives the physical value of every code, to half a unit of the last character at the larger end.
    [Test]
    public void Write_AnyScale_HeaderGivesThePhysicalValuesAndTheFormatComesBack()
    {
        Gen<ChannelFormat> formats =
            from name in Gen.Int[0, 7]
            from bits in Gen.Int[4, 24]
            from isSigned in Gen.Bool
            from exponent in Gen.Int[-7, 3]
            from mantissa in Gen.Double[1, 10]
            from zero in Gen.Int[-40_000_000, 40_000_000]
            from polarity in Gen.Bool
            select new ChannelFormat
            {
                Name = (ChannelName)name, Device = "d", RateHz = 10, Bits = bits, IsSigned = isSigned, UnitPerCode = mantissa * Math.Pow(10, exponent),
                ZeroCode = zero >> (24 - bits), Polarity = polarity ? 1 : -1, DeclaredDelayNs = zero,
            };
        int written = 0;
        formats.Sample(
            format =>
            {
                if (EdfRecordingWriter.WhyNot(new StreamFormat([format])) is string refusal)
                {
                    return refusal.Contains("does not fit", StringComparison.Ordinal);
                }

                written++;
                EdfSignal s = Written(format, out EdfRecordingWriter writer);
                int offset = format.IsSigned ? 0 : 1 << (format.Bits - 1);
                double inUnits = InUnits(s.Dimension);
                double gain = ((double)s.PhysicalMaximum - (double)s.PhysicalMinimum) / (s.DigitalMaximum - (double)s.DigitalMinimum);
                double largest = Math.Max(Math.Abs((double)s.PhysicalMinimum), Math.Abs((double)s.PhysicalMaximum)) * inUnits;
                bool isExact = writer.Notes.Count == 0;
                foreach (int code in new[] { format.MinimumCode, format.MaximumCode, (format.MinimumCode + format.MaximumCode) / 2 })
                {
                    double physical = ((double)s.PhysicalMinimum + ((code - offset - (double)s.DigitalMinimum) * gain)) * inUnits;
                    double error = Math.Abs(physical - format.Physical(code));
                    if (error > (isExact ? 1e-12 : 1e-3) * Math.Max(largest, format.UnitPerCode * (1 << format.Bits)))
                    {
                        return false;
                    }
                }

                return s.DigitalMinimum <= format.MinimumCode - offset && s.DigitalMaximum >= format.MaximumCode - offset;
            },
            seed: "0000KOIPMf06",
            iter: 150);
        Assert.That(written, Is.GreaterThan(75));
    }

    /// <summary>Prefixes of the SI, against millivolts, nanoamperes and g.</summary>
    internal static double InUnits(string dimension) => dimension switch
    {
        "mV" or "nA" or "g" => 1,
        "uV" or "pA" or "mg" => 1e-3,
        "nV" or "fA" or "ug" => 1e-6,
        "pV" => 1e-9,
        "V" or "uA" => 1e3,
        "mA" => 1e6,
        "A" => 1e9,
        _ => throw new ArgumentOutOfRangeException(nameof(dimension), dimension, "Not a unit that is written."),
    };

    private static EdfSignal Written(ChannelFormat channel, out EdfRecordingWriter writer)
    {
        using var folder = new TestFolder();
        var format = new StreamFormat([channel]);
        Sample[][] samples = [[.. EdfStreams.Make(format, 0, 20, _ => false, _ => 0)]];
        writer = EdfStreams.Write(folder["rec"], format, samples, 20, new EdfWriteOptions { Container = EdfContainer.Bdf });
        using var reader = new EdfRecordingReader(folder["rec"]);
        Assert.That(reader.Format.Channels.Single(), Is.EqualTo(channel));
        Assert.That(EdfStreams.ReadAll(reader, 7), Is.EqualTo(samples));
        return reader.Headers.Single().Signals[0];
    }
}
