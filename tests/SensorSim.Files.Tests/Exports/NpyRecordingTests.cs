// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Files.Tests.Exports;

/// <summary>NPY files against the published layout (NumPy Enhancement Proposal 1, "A Simple File Format for NumPy Arrays").</summary>
[TestFixture]
public sealed partial class NpyRecordingTests
{
    private static readonly RecordingFacts s_facts = new() { Title = "two channels", Seed = 7, GeneratorVersion = 3 };

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(4096)]
    public void Write_AnyCut_HoldsEverySample(int ticks)
    {
        using var folder = new TestFolder();
        SampleRecording.Write(folder["rec"], ticks, (o, f) => new NpyRecordingWriter(o, f, s_facts));

        for (int c = 0; c < 2; c++)
        {
            string name = Streams.Format().Channels[c].Name.Text();
            Assert.That(Read(folder[$"rec/{name}_code.npy"], "<i4"), Is.EqualTo(SampleRecording.Expected(c).Select(s => (long)s.Code)));
            Assert.That(Read(folder[$"rec/{name}_sample.npy"], "<i8"), Is.EqualTo(SampleRecording.Expected(c).Select(s => s.Index)));
            Assert.That(Read(folder[$"rec/{name}_status.npy"], "<u2"), Is.EqualTo(SampleRecording.Expected(c).Select(s => (long)s.Status)));
        }
    }

    [Test]
    public void Header_IsWhatNumPyWrites()
    {
        // The first 128 bytes that numpy.save writes for numpy.zeros(1, '<i4') (NumPy 1.24; the shape of the text: NEP 1; the padding to 64: NumPy's format notes).
        byte[] expected = [0x93, 0x4E, 0x55, 0x4D, 0x50, 0x59, 0x01, 0x00, 0x76, 0x00, .. Encoding.ASCII.GetBytes("{'descr': '<i4', 'fortran_order': False, 'shape': (1,), }".PadRight(117) + "\n")];
        var memory = new MemoryStream();
        var array = new NpyArray(memory, "<i4");
        array.Append(-2);
        array.Complete();

        Assert.That(memory.ToArray(), Is.EqualTo((byte[])[.. expected, 0xFE, 0xFF, 0xFF, 0xFF]));
    }

    [Test]
    public void Channels_SayWhatTheNumbersMean()
    {
        using var folder = new TestFolder();
        SampleRecording.Write(folder["rec"], 500, (o, f) => new NpyRecordingWriter(o, f, s_facts));
        using JsonDocument json = JsonDocument.Parse(File.ReadAllText(folder["rec/channels.json"]));
        JsonElement root = json.RootElement;
        JsonElement light = root.GetProperty("channels")[1];

        Assert.That((root.GetProperty("seed").GetInt64(), root.GetProperty("generator_version").GetInt32(), root.GetProperty("end_tick").GetInt64()), Is.EqualTo((7L, 3, SampleRecording.EndTick)));
        Assert.That((light.GetProperty("channel").GetString(), light.GetProperty("unit").GetString(), light.GetProperty("unit_per_code").GetDouble()), Is.EqualTo(("infrared", "nA", 0.03125)));
        Assert.That((light.GetProperty("zero_code").GetInt32(), light.GetProperty("polarity").GetInt32(), light.GetProperty("declared_delay_ns").GetInt64()), Is.EqualTo((7, -1, -3_000_000L)));
        Assert.That(File.Exists(folder["rec/" + light.GetProperty("codes").GetString()]), Is.True);
    }

    [Test]
    public void Write_AfterWarmUp_AllocatesNothing()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["rec"]);
        StreamFormat format = Streams.Format();
        using var writer = new NpyRecordingWriter(output, format, s_facts);
        var block = new SampleBlock(format, 500);
        long tick = 0;
        void Second()
        {
            for (int i = 0; i < 100; i++, tick += 500)
            {
                block.Begin(tick, tick + 500);
                block.Channels[0].Append(tick / 2, 250, out _, out _);
                writer.Write(block);
            }
        }

        Assert.That(Allocations.Least(Second), Is.Zero);
    }

    [Test]
    public void Write_BlockLeftOut_IsRefused()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["rec"]);
        using var writer = new NpyRecordingWriter(output, Streams.Format(), s_facts);
        var block = new SampleBlock(Streams.Format(), 10);
        block.Begin(5, 10);
        Assert.That(() => writer.Write(block), Throws.ArgumentException.With.Message.Contains("ended at 0"));
    }

    // A reader of the layout alone: magic, version, length of the header, dictionary, then the numbers one after another.
    private static long[] Read(string path, string type)
    {
        byte[] bytes = File.ReadAllBytes(path);
        Assert.That(bytes[..8], Is.EqualTo(new byte[] { 0x93, 0x4E, 0x55, 0x4D, 0x50, 0x59, 1, 0 }));
        int length = BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(8));
        string text = Encoding.ASCII.GetString(bytes, 10, length);
        Match header = Dictionary().Match(text);
        Assert.That((header.Success, header.Groups[1].Value, text[^1], (10 + length) % 64), Is.EqualTo((true, type, '\n', 0)));
        int width = type[2] - '0';
        int count = int.Parse(header.Groups[2].Value, CultureInfo.InvariantCulture);
        Assert.That(bytes, Has.Length.EqualTo(10 + length + (count * width)));
        return [.. Enumerable.Range(0, count).Select(i => bytes.AsSpan(10 + length + (i * width), width)switch
        {
            var b when type == "<i4" => BinaryPrimitives.ReadInt32LittleEndian(b),
            var b when type == "<i8" => BinaryPrimitives.ReadInt64LittleEndian(b),
            var b => BinaryPrimitives.ReadUInt16LittleEndian(b),
        })];
    }

    [GeneratedRegex(@"^\{'descr': '([^']+)', 'fortran_order': False, 'shape': \((\d+),\), \} *\n$")]
    private static partial Regex Dictionary();
}
