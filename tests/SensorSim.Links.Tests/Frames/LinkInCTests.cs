// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Globalization;
using System.Text.RegularExpressions;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Frames;

/// <summary>The codec in C does what the codec in C# does: the same frames, counts, payloads and refusals.</summary>
public sealed class LinkInCTests
{
    private LinkInC _c = null!;

    [OneTimeSetUp]
    public void Build() => _c = new LinkInC();

    [OneTimeTearDown]
    public void Drop() => _c.Dispose();

    [Test]
    public void Crc_BothTables_AreTheSame()
    {
        using var table = new LinkInC("-DSS_LINK_CRC_TABLE");
        var random = new Random(1);
        for (int length = 0; length < 300; length++)
        {
            var bytes = new byte[length];
            random.NextBytes(bytes);
            Assert.That(_c.Crc(bytes), Is.EqualTo(Crc32C.Of(bytes)));
            Assert.That(table.Crc(bytes), Is.EqualTo(Crc32C.Of(bytes)));
        }
    }

    [Test]
    public void Seal_EveryLengthAndType_GivesTheSameBytes()
    {
        var random = new Random(2);
        foreach (FrameType type in Enum.GetValues<FrameType>())
        {
            for (int length = 0; length <= FrameLimits.MaximumPayload; length++)
            {
                byte[] payload = FrameFuzz.Payload(random, length);
                uint sequence = (uint)random.NextInt64(1L << random.Next(1, 33));
                byte[] wire = FrameTests.Made(new FrameWriter(sequence), type, payload);
                Assert.That(_c.Made(sequence, type, payload), Is.EqualTo(wire), $"{type} {length}");
            }
        }
    }

    [Test]
    public void Frames_DamagedBytes_GiveTheSameFramesAndCounts([Values(1, 2, 3, 4)] int seed)
    {
        var random = new Random(seed);
        for (int round = 0; round < 500; round++)
        {
            byte[] wire = FrameFuzz.DamagedWire(random, 20);
            var reader = new FrameReader();
            byte[] frames = Dump(reader, wire, random.Next(1, 400));
            (byte[] framesOfC, FrameCounts countsOfC) = _c.Frames(wire, byByte: round % 2 == 0);
            Assert.That(framesOfC.AsSpan().SequenceEqual(frames), Is.True, $"round {round}");

            // C counts in 32 bits.
            Assert.That(countsOfC, Is.EqualTo(reader.Counts with { Missing = (uint)reader.Counts.Missing }), $"round {round}");
        }
    }

    [Test]
    public void Again_RandomAndDamagedPayloads_AreReadAndRefusedAlike([Values(1, 2, 3)] int seed)
    {
        var random = new Random(seed);
        int accepted = 0;
        int refused = 0;
        for (int round = 0; round < 20_000; round++)
        {
            StreamFormat format = random.Next(2) == 0 ? Streams.Small : Streams.Full;
            List<byte[]> formats = FormatTests.PayloadsOf(format);
            (FrameType type, byte[] payload) = PayloadFuzz.Any(random, format);
            byte[]? here = PayloadFuzz.Again(type, payload, format);
            byte[]? there = _c.Again(type, payload, formats);
            Assert.That(there is null, Is.EqualTo(here is null), $"round {round} {type} {Convert.ToHexString(payload)}");
            Assert.That(there, Is.EqualTo(here), $"round {round} {type} {Convert.ToHexString(payload)}");
            accepted += here is null ? 0 : 1;
            refused += here is null ? 1 : 0;
        }

        Assert.That(accepted, Is.GreaterThan(5000));
        Assert.That(refused, Is.GreaterThan(2000));
    }

    [Test]
    public void Again_FormatsWithOneByteChanged_AreRefusedAlike([Values] bool isFull)
    {
        StreamFormat format = isFull ? Streams.Full : Streams.Small;
        List<byte[]> formats = FormatTests.PayloadsOf(format);
        foreach (byte[] payload in formats)
        {
            Assert.That(_c.Again(FrameType.Format, payload, formats), Is.EqualTo(payload));
            for (int at = 0; at < payload.Length; at++)
            {
                foreach (byte change in new byte[] { 1, 2, 0x10, 0x80, 0xFF })
                {
                    var changed = (byte[])payload.Clone();
                    changed[at] ^= change;
                    var gatherer = new FormatGatherer();
                    List<byte[]> before = [.. formats.Where(f => f != payload)];
                    Assert.That(before.TrueForAll(f => gatherer.TryAdd(f, out _)), Is.True);
                    bool isTaken = gatherer.TryAdd(changed, out _);
                    Assert.That(_c.Again(FrameType.Format, changed, before) is not null, Is.EqualTo(isTaken), $"byte {at}, {change}");
                    Assert.That(_c.Again(FrameType.Format, changed, formats) is null, Is.EqualTo(at != 7), "told twice, and not the same; byte 7 says nothing");
                }
            }
        }
    }

    [Test]
    public void Samples_RandomBlocks_AreReadAndMadeAlike()
    {
        var random = new Random(9);
        foreach (StreamFormat format in new[] { Streams.Small, Streams.Full })
        {
            List<byte[]> formats = FormatTests.PayloadsOf(format);
            var writer = new SamplesWriter(format);
            for (int round = 0; round < 30; round++)
            {
                long begin = random.NextInt64(1L << random.Next(1, 61));
                writer.Begin(Streams.Block(format, begin, begin + (2 * format.Clock.TicksPerSecond), random), asksAtEnd: true);
                foreach (byte[] payload in SamplesTests.Payloads(writer))
                {
                    // What C makes of it comes last: the same payload again.
                    byte[] here = [.. PayloadFuzz.Again(FrameType.Samples, payload, format)!];
                    Assert.That(here[^payload.Length..], Is.EqualTo(payload));
                    Assert.That(_c.Again(FrameType.Samples, payload, formats), Is.EqualTo(here));
                }
            }
        }
    }

    [Test]
    public void Header_NumbersOfMarksSettingsAndItems_AreThoseOfTheContract()
    {
        string header = File.ReadAllText(Path.Combine(CCompiler.Root, "src", "firmware", "link", "sensorsim_link.h"));
        Assert.That(header, Does.Contain($"#define SS_LINK_MARK_KINDS {MarkKinds.All.Count}u"));
        Assert.That(header, Does.Contain($"#define SS_LINK_SETTINGS {SensorSettings.All.Count}u"));
        Assert.That(EnumIn(header, "ss_link_type", "SS_LINK_"), Is.EqualTo(Enum.GetValues<FrameType>().Select(t => (t.ToString().ToUpperInvariant(), (int)t))));
        Assert.That(EnumIn(header, "ss_link_setup_item", "SS_LINK_SETUP_"), Is.EqualTo(ConstantsOf(typeof(SetupItems))));
        Assert.That(EnumIn(header, "ss_link_figure_item", "SS_LINK_FIGURE_"), Is.EqualTo(ConstantsOf(typeof(BoardFigures))));
        Assert.That(
            EnumIn(header, "ss_link_trouble_code", "SS_LINK_").Skip(1),
            Is.EqualTo(Enum.GetValues<TroubleCode>().Skip(1).Select(c => (c.ToString().ToUpperInvariant(), (int)c))));
    }

    // Names without underscores, and their numbers.
    private static List<(string Name, int Number)> EnumIn(string header, string name, string prefix)
    {
        int begin = header.IndexOf($"enum {name} {{", StringComparison.Ordinal);
        string text = header[begin..header.IndexOf('}', begin)];
        return [.. Regex.Matches(text, $"{prefix}([A-Z0-9_]+) = (0x[0-9A-F]+|[0-9]+)").Select(m => (
            m.Groups[1].Value.Replace("_", "", StringComparison.Ordinal),
            m.Groups[2].Value.StartsWith("0x", StringComparison.Ordinal) ? Convert.ToInt32(m.Groups[2].Value, 16) : int.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture)))];
    }

    private static List<(string Name, int Number)> ConstantsOf(Type type)
        => [.. type.GetFields().Select(f => (f.Name.ToUpperInvariant(), (int)(ushort)f.GetRawConstantValue()!))];

    private static byte[] Dump(FrameReader reader, byte[] wire, int cut)
    {
        var bytes = new List<byte>();
        foreach ((FrameType type, uint sequence, byte[] payload) in FrameTests.FramesOf(reader, wire, cut))
        {
            var head = new byte[7];
            head[0] = (byte)type;
            BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(1), sequence);
            BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(5), (ushort)payload.Length);
            bytes.AddRange(head);
            bytes.AddRange(payload);
        }

        return [.. bytes];
    }
}
