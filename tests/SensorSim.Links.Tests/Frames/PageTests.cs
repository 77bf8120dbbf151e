// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.RegularExpressions;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Frames;

/// <summary>The worked examples of docs/link-protocol.md: made of the values that the page tells, and read out of its bytes.</summary>
public sealed class PageTests
{
    private static readonly StreamFormat s_format = new(
    [
        new ChannelFormat { Name = ChannelName.Ecg, Device = "device_0", RateHz = 250, Bits = 16, IsSigned = true, UnitPerCode = 0.000_381, ZeroCode = -12, DeclaredDelayNs = 8_000_000 },
        new ChannelFormat { Name = ChannelName.Red, Device = "device_1", RateHz = 100, Bits = 20, IsSigned = false, UnitPerCode = 0.25, Polarity = -1, DeclaredDelayNs = -703_125 },
    ]);

    private static readonly Dictionary<string, byte[]> s_page = Regex.Matches(
            File.ReadAllText(Path.Combine(CCompiler.Root, "docs", "link-protocol.md")), "```frame ([a-z]+)\n([0-9A-F \n]+)```")
        .ToDictionary(m => m.Groups[1].Value, m => Convert.FromHexString(Regex.Replace(m.Groups[2].Value, "\\s", "")));

    [Test]
    public void Page_EveryType_HasAnExample()
        => Assert.That(s_page.Keys.Order(), Is.EqualTo(Enum.GetNames<FrameType>().Select(n => n.ToLowerInvariant()).Order()));

    [TestCaseSource(nameof(Examples))]
    public void Example_MadeOfItsValues_IsThatOfThePage(string name, uint sequence, byte[] payload)
    {
        FrameType type = Enum.Parse<FrameType>(name, ignoreCase: true);
        byte[] wire = s_page[name];
        Assert.That(Convert.ToHexString(FrameTests.Made(new FrameWriter(sequence), type, payload)), Is.EqualTo(Convert.ToHexString(wire)));
        var reader = new FrameReader();
        (FrameType typeRead, uint sequenceRead, byte[] payloadRead) = FrameTests.FramesOf(reader, wire, 1).Single();
        Assert.That((typeRead, sequenceRead), Is.EqualTo((type, sequence)));
        Assert.That(payloadRead, Is.EqualTo(payload));
        byte[]? again = type == FrameType.Format ? FormatAgain(payloadRead) : PayloadFuzz.Again(type, payloadRead, s_format);
        if (type == FrameType.Marks)
        {
            // The first value comes in codes and goes back in thousandths.
            Assert.That((again![10], again[44]), Is.EqualTo(((byte)1, (byte)(1000 & 0xFF))));
        }
        else
        {
            Assert.That(type == FrameType.Samples ? again![^payload.Length..] : again, Is.EqualTo(payload));
        }
    }

    [Test]
    public void Samples_OfThePage_SayWhatThePageSays()
    {
        byte[] payload = FrameTests.FramesOf(new FrameReader(), s_page["samples"], 100).Single().Payload;
        Assert.That(new SamplesReader(s_format).TryRead(payload, out SamplesPayload samples, out _), Is.True);
        var block = new SampleBlock(s_format, 20);
        block.Begin(100, 120);
        samples.AppendTo(block);
        Assert.That(block.Channels[0].Runs.ToArray(), Is.EqualTo(new[] { new SampleRun(51, 0, 5) }));
        Assert.That(block.Channels[0].Codes.ToArray(), Is.EqualTo(new[] { -1, 0, 1, -32768, 32767 }));
        Assert.That(block.Channels[0].Status.ToArray(), Is.EqualTo(new ushort[] { 0, 0, 0, 0, 8 }));
        Assert.That(block.Channels[1].Codes.ToArray(), Is.EqualTo(new[] { 0x12345, 0xABCDE, 0xFFFFF }));
        Assert.That(block.Channels[1].Status.ToArray(), Is.EqualTo(new ushort[] { 256, 256, 256 }));
        Assert.That(samples.WantsProgress, Is.True);
    }

    [Test]
    public void Page_InC_IsTheSame()
    {
        using var c = new LinkInC();
        List<byte[]> formats = FormatTests.PayloadsOf(s_format);
        foreach ((string name, byte[] wire) in s_page)
        {
            (FrameType type, uint sequence, byte[] payload) = FrameTests.FramesOf(new FrameReader(), wire, 100).Single();
            Assert.That(c.Frames(wire, byByte: true).Counts.Good, Is.EqualTo(1), name);
            Assert.That(c.Made(sequence, type, payload), Is.EqualTo(wire), name);
            byte[]? again = c.Again(type, payload, formats);
            Assert.That(type == FrameType.Samples ? again![^payload.Length..] : again, Is.EqualTo(payload), name);
        }
    }

    [Test]
    public void Page_InPython_IsTheSame()
        => Assert.That(
            CCompiler.Run("python3", Path.Combine(CCompiler.Root, "tests", "SensorSim.Links.Tests", "Frames", "page_examples.py"), CCompiler.Root).Trim(),
            Is.EqualTo($"{s_page.Count} examples read and made again"));

    [Test]
    public void Page_TablesOfItemsAndKinds_AreThoseOfTheCode()
    {
        string page = File.ReadAllText(Path.Combine(CCompiler.Root, "docs", "link-protocol.md"));
        IEnumerable<ushort> items = typeof(SetupItems).GetFields().Where(f => f.Name != nameof(SetupItems.FirstOfDetector)).Select(f => (ushort)f.GetRawConstantValue()!);
        Assert.That(Regex.Matches(page, "^\\| (0[0-9A-F]{3}) \\|", RegexOptions.Multiline).Select(m => Convert.ToUInt16(m.Groups[1].Value, 16)), Is.EqualTo(items));
        foreach (MarkKindInfo kind in MarkKinds.All)
        {
            Assert.That(page, Does.Contain($"| {(int)kind.Kind} | `{kind.Text}` | {kind.ValueUnit} |"));
        }

        Assert.That(NumbersIn(page, "### `trouble` codes"), Is.EqualTo(Enum.GetValues<TroubleCode>().Skip(1).Select(c => (int)c)));
        Assert.That(NumbersIn(page, "### `figures` items"), Is.EqualTo(typeof(BoardFigures).GetFields().Select(f => (int)(ushort)f.GetRawConstantValue()!)));
    }

    // The numbers of a list like "1 one thing · 2 another".
    private static IEnumerable<int> NumbersIn(string page, string heading)
    {
        int begin = page.IndexOf(heading, StringComparison.Ordinal) + heading.Length;
        string list = page[begin..].TrimStart().Split('\n')[0];
        return list.Split('·').Select(one => int.Parse(one.Trim().Split(' ')[0], CultureInfo.InvariantCulture));
    }

    private static IEnumerable<TestCaseData> Examples()
    {
        yield return Example("hello", 0, b => new HelloPayload(0x12345678, 1, 1, "sensorsim 0.1").Write(b));
        yield return Example("about", 0, b => new AboutPayload(0x12345678, 1, 240, 4, 8128, "wrist 2.3").Write(b));
        yield return Example("format", 1, b => FormatPayload.Write(s_format, 0, b));
        yield return Example("setup", 2, b => SetupPayload.Write([new(SetupItems.StartS, 0, 86_400 + 32_760), new(SetupItems.BeatRefractoryMs, 0, 220)], b));
        yield return Example("start", 3, b => new TickPayload(0).Write(b));
        yield return Example("accepted", 3, b => new AcceptedPayload(FrameType.Start, 3).Write(b));
        yield return Example("samples", 4, WriteSamples);
        yield return Example("setting", 5, b => SettingPayload.Write(new SettingsRequest(1, SensorSetting.LedCurrentMa, 12_500, 150), b));
        yield return Example("request", 4, b => SettingPayload.Write(new SettingsRequest(1, SensorSetting.Gain, 2000, 0), b));
        yield return Example("marks", 5, WriteMarks);
        yield return Example("ask", 6, _ => 0);
        yield return Example("progress", 6, b => new ProgressPayload(0x12345678, 8, 120, 7, 1, 2, 3, 2, 4_000_000_000).Write(b));
        yield return Example("log", 7, b => new LogPayload(LogLevel.Warning, "battery 3.1 V").Write(b));
        yield return Example("trouble", 8, b => new TroublePayload(TroubleCode.NoSuchChannel, 4, "no channel 7").Write(b));
        yield return Example("stop", 7, b => new TickPayload(120).Write(b));
        yield return Example("figures", 9, b => FigurePayload.Write(
            [new(BoardFigures.StackBytes, 0, 2048), new(BoardFigures.StackUsedBytes, 0, 812), new(BoardFigures.SamplesTaken, 1, 8_589_934_592)], b));
        yield return Example("stopped", 10, b => new ProgressPayload(0x12345678, 8, 120, 8, 1, 2, 3, 2, 4_000_001_000).Write(b));
        yield return Example("capture", 8, b => CapturePayload.Write(b));
    }

    private static TestCaseData Example(string name, uint sequence, Func<byte[], int> write)
    {
        var bytes = new byte[FrameLimits.MaximumPayload];
        return new TestCaseData(name, sequence, bytes[..write(bytes)]).SetArgDisplayNames(name);
    }

    private static int WriteSamples(byte[] bytes)
    {
        var block = new SampleBlock(s_format, 20);
        block.Begin(100, 120);
        block.Channels[0].Append(51, 5, out Span<int> ecg, out Span<ushort> status);
        ((ReadOnlySpan<int>)[-1, 0, 1, -32768, 32767]).CopyTo(ecg);
        status[4] = 8;
        block.Channels[1].Append(20, 3, out Span<int> red, out Span<ushort> settings);
        ((ReadOnlySpan<int>)[0x12345, 0xABCDE, 0xFFFFF]).CopyTo(red);
        settings.Fill(0x0100);
        var writer = new SamplesWriter(s_format);
        writer.Begin(block, asksAtEnd: true);
        return writer.Write(bytes);
    }

    private static int WriteMarks(byte[] bytes)
    {
        Mark[] marks =
        [
            new() { Kind = MarkKind.RPeak, Channel = 0, Sample = 1_234_567_890_123, Fraction256 = 128, HasValue = true, ValueMilli = 2625, Quality = 250, EmittedTick = 2_469_135_780_400 },
            new()
            {
                Kind = MarkKind.ArrivalTimeMs, Channel = 1, Sample = 493_827_156_060, Fraction256 = 7, HasValue = true, ValueMilli = 231_450, Quality = 180,
                PairedChannel = 0, PairedSample = 1_234_567_890_123, PairedFraction256 = 128, WindowSamples = 3000, EmittedTick = 2_469_135_780_400,
            },
        ];
        int length = MarkPayload.Write(marks, bytes);

        // The value of the first one is in codes.
        bytes[10] |= 2;
        return length;
    }

    private static byte[] FormatAgain(byte[] payload)
    {
        var gatherer = new FormatGatherer();
        Assert.That(gatherer.TryAdd(payload, out string? problem), Is.True, problem);
        return FormatTests.PayloadsOf(gatherer.Format!).Single();
    }
}
