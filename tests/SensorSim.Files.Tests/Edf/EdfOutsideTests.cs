// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Edf;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Files.Tests.Edf;

/// <summary>Both directions against EDFlib 1.23 (van Beelen), a reader that refuses whatever the standards do not allow: tests/outside/edf_check.c.</summary>
public class EdfOutsideTests
{
    private readonly TestFolder _folder = new();
    private string _program = "";

    [OneTimeSetUp]
    public void Build() => _program = CCompiler.Build(
        Path.Combine(CCompiler.Root, "tests", "outside", "edf_check.c"), _folder["edf_check"], "-D_LARGEFILE64_SOURCE", "-Wl,--no-as-needed", "-ledf");

    [OneTimeTearDown]
    public void Remove() => _folder.Dispose();

    [TestCase(EdfContainer.Edf, 3)]
    [TestCase(EdfContainer.Bdf, 5)]
    public void OutsideReader_OfOurFile_GivesTheSameIntegersAndTexts(EdfContainer container, int outer)
    {
        StreamFormat format = container == EdfContainer.Bdf ? EdfStreams.Wrist() : new StreamFormat(
        [
            EdfStreams.Channel(ChannelName.Ecg, 250, 16, isSigned: true, 10.0 / 65536),
            EdfStreams.Channel(ChannelName.Infrared, 100, 16, isSigned: false, 0.25, polarity: -1),
        ]);
        const long End = 1750;
        Sample[][] samples = EdfRecordingTests.Samples(format, End, i => i is >= 120 and < 140, i => (ushort)(i >= 200 ? 8 : 0));
        string name = "out" + outer;
        EdfStreams.Write(_folder[name], format, samples, End, new EdfWriteOptions { Container = container }, more: w =>
            w.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, 1_250_000_000 - 12_345, 1.5, 3, BeatClass.Normal, TruthFlags.None)));
        string path = Directory.GetFiles(_folder[name]).Single();
        string[] lines = CCompiler.Run(_program, "read", path).Split('\n');

        // File types of EDFlib: 1 EDF+, 3 BDF+; durations in units of 100 ns.
        long ticks = format.Clock.TicksPerSecond;
        long records = (End + ticks - 1) / ticks;
        Assert.That(lines[0], Is.EqualTo($"file {(container == EdfContainer.Bdf ? 3 : 1)} {samples.Length} 10000000 {records}"));
        Assert.That(lines, Does.Contain("start 2000-01-01 00:00:00"));
        Assert.That(lines, Has.Some.StartsWith("equipment wrist"));
        for (int c = 0; c < samples.Length; c++)
        {
            ChannelFormat channel = format.Channels[c];
            string[] signal = lines[3 + c].Split('|');
            Assert.That(signal[2].Trim(), Is.EqualTo(EdfChannelTextOf(channel)));
            double minimum = double.Parse(signal[4], CultureInfo.InvariantCulture);
            double maximum = double.Parse(signal[5], CultureInfo.InvariantCulture);
            int low = int.Parse(signal[6], CultureInfo.InvariantCulture);
            int high = int.Parse(signal[7], CultureInfo.InvariantCulture);
            int[] codes = [.. lines.Single(l => l.StartsWith($"samples {c} ", StringComparison.Ordinal)).Split(' ').Skip(2).Select(t => int.Parse(t, CultureInfo.InvariantCulture))];
            Assert.That(codes, Has.Length.EqualTo(records * channel.RateHz));
            int offset = channel.IsSigned ? 0 : 1 << (channel.Bits - 1);
            foreach (Sample sample in samples[c])
            {
                int code = codes[sample.Index];
                Assert.That(code + offset, Is.EqualTo(sample.Code));

                // The formula of the standard, on what EDFlib read from the header, gives our physical value.
                double physical = (minimum + ((code - (double)low) * (maximum - minimum) / ((double)high - low))) * EdfScaleTests.InUnits(signal[3].Trim());
                // Half a unit of the eighth character at the larger end, where a scale is not exact there: 0.05 of 16383.75, 0.5e-5 of 4.99985.
                double range = channel.UnitPerCode * (1 << channel.Bits);
                Assert.That(physical, Is.EqualTo(channel.Physical(sample.Code)).Within(4e-6 * range));
            }
        }

        Assert.That(lines, Does.Contain("note 12500000 -10000000 truth ecg r_peak value 1.5 beat 3 label normal"));
        Assert.That(lines, Does.Contain($"note 4800000 800000 gap ecg 120:20"));
        Assert.That(lines, Does.Contain("note 8000000 -10000000 status ecg 200:8 saturated"));
        Assert.That(lines, Has.Some.EndsWith($" end tick {End} of {ticks}"));

        // Truth, end, a gap each, and a change of status each where there is a sample 200.
        int expected = 2 + samples.Length + samples.Count(s => s[^1].Index >= 200);
        Assert.That(lines.Count(l => l.StartsWith("note", StringComparison.Ordinal)), Is.EqualTo(expected), "nothing else");
    }

    [TestCase("edf")]
    [TestCase("bdf")]
    public void OurReader_OfOutsideFile_GivesTheSameIntegersAndTexts(string kind)
    {
        const int Blocks = 7;
        string path = _folder["in." + kind];
        CCompiler.Run(_program, "write", path, kind, Blocks.ToString(CultureInfo.InvariantCulture));
        using var stream = new EdfRecordingReader(path);
        Assert.That(stream.Notes, Is.Empty);
        Assert.That(stream.Format.Channels.Select(c => (c.Name, c.RateHz, c.Bits, c.Polarity)), Is.EqualTo(new[]
        {
            (ChannelName.Ecg, 200, kind == "bdf" ? 24 : 16, 1), (ChannelName.AccelY, 50, kind == "bdf" ? 24 : 16, -1),
        }));

        // 6000 uV over twice the top code; 80 m/s^2 over 8191 codes, in units of standard gravity, 9.80665 m/s^2 (SI Brochure, 9th edition).
        int top = kind == "bdf" ? 8_388_607 : 32_767;
        Assert.That(stream.Format.Channels[0].UnitPerCode, Is.EqualTo(6.0 / (2.0 * top)).Within(1e-12).Percent);
        Assert.That(stream.Format.Channels[1].UnitPerCode, Is.EqualTo(80 / 8191.0 / 9.80665).Within(1e-12).Percent);
        Assert.That(stream.EndTick, Is.EqualTo(Blocks * 200));
        List<Sample>[] found = EdfStreams.ReadAll(stream, 33);
        Assert.That(found[0].Select(s => s.Code), Is.EqualTo(Enumerable.Range(0, Blocks * 200).Select(i => (int)((long)i * 7919 % ((2L * top) + 1)) - top)));
        Assert.That(found[1].Select(s => s.Code), Is.EqualTo(Enumerable.Range(0, Blocks * 50).Select(i => (i * 31 % 8192) - 4096)));

        using var notes = new EdfAnnotationReader(path);
        Assert.That(notes.Header.Start, Is.EqualTo(new DateTime(2031, 12, 5, 23, 59, 58)));
        Assert.That(EdfRecordingTests.All(notes), Is.EqualTo(Enumerable.Range(0, Blocks).Select(b =>
            new EdfAnnotation((b * 1_000_000_000L) + 250_000_000, b % 2 == 0 ? null : 125_000_000, $"beat {b}"))));
    }

    // The sixteen faults that EDFlib was seen to refuse are not all ours to refuse; that it takes what we write is the check. Here it must say no.
    [Test]
    public void OutsideReader_OfDamagedFile_Refuses()
    {
        string path = _folder["damaged.edf"];
        byte[] bytes = EdfKnownAnswerTests.Write(EdfKnownAnswerTests.Header(isBdf: false, EdfContinuity.Plain), 1, _ => { });
        bytes[184] = (byte)'9';
        File.WriteAllBytes(path, bytes);
        Assert.That(() => CCompiler.Run(_program, "read", path), Throws.InvalidOperationException.With.Message.Contains("refuses"));
    }

    // Written out here, so that a change of the text is seen.
    private static string EdfChannelTextOf(ChannelFormat c) => string.Create(
        CultureInfo.InvariantCulture,
        $"{c.Name.Text()} {(c.IsSigned ? "s" : "u")}{c.Bits} step {c.UnitPerCode:R} zero {c.ZeroCode} delay_ns 12345");
}
