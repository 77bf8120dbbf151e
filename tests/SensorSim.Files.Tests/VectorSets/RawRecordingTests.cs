// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.VectorSets;

/// <summary>Raw samples: what is written comes back, and the bytes are those that the page says.</summary>
public sealed class RawRecordingTests
{
    private const int Seconds = 3;

    [Test]
    public void The_bytes_are_little_endian_int32_and_a_row_for_each_stretch()
    {
        using var folder = new TestFolder();
        StreamFormat format = Streams.Format();
        using (var writer = new RawRecordingWriter(name => File.Create(folder[name]), format))
        {
            var block = new SampleBlock(format, format.Clock.TicksPerSecond);
            block.Begin(0, format.Clock.TicksPerSecond);
            block.Channels[0].Append(0, 2, out Span<int> codes, out Span<ushort> status);
            (codes[0], codes[1]) = (-2, 0x1234);
            (status[0], status[1]) = (0, 1);
            block.Channels[0].Append(5, 1, out codes, out status);
            (codes[0], status[0]) = (100_000, 1);
            writer.Write(block);
            writer.Complete();
        }

        // Two's complement, least significant byte first: worked by hand.
        byte[] expected = [0xFE, 0xFF, 0xFF, 0xFF, 0x34, 0x12, 0, 0, 0xA0, 0x86, 0x01, 0];
        Assert.That(File.ReadAllBytes(folder["ecg.i32"]), Is.EqualTo(expected));
        Assert.That(File.ReadAllText(folder["ecg-runs.csv"]), Is.EqualTo("first_sample,count,status\n0,1,0\n1,1,1\n5,1,1\n"));
        Assert.That(File.ReadAllText(folder["infrared-runs.csv"]), Is.EqualTo("first_sample,count,status\n"));
    }

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(500)]
    public void Samples_gaps_and_status_come_back_however_they_are_cut(int ticks)
    {
        using var folder = new TestFolder();
        List<(int Channel, long Index, int Code, ushort Status)> written = Write(folder);
        var read = new List<(int Channel, long Index, int Code, ushort Status)>();
        using (var reader = new RawRecordingReader(folder.Root))
        {
            Assert.That(reader.Format.Channels, Is.EqualTo(Streams.Format().Channels));
            Assert.That(reader.EndTick, Is.EqualTo(Seconds * reader.Format.Clock.TicksPerSecond));
            var block = new SampleBlock(reader.Format, ticks);
            while (reader.PositionTick < reader.EndTick)
            {
                reader.Read(block, Math.Min(reader.EndTick, reader.PositionTick + ticks));
                for (int c = 0; c < block.Channels.Length; c++)
                {
                    foreach (SampleRun run in block.Channels[c].Runs)
                    {
                        for (int k = 0; k < run.Count; k++)
                        {
                            read.Add((c, run.FirstIndex + k, block.Channels[c].Codes[run.Offset + k], block.Channels[c].Status[run.Offset + k]));
                        }
                    }
                }
            }
        }

        Assert.That(read.OrderBy(r => r.Channel).ThenBy(r => r.Index), Is.EqualTo(written.OrderBy(r => r.Channel).ThenBy(r => r.Index)));
        Assert.That(written, Has.Count.GreaterThan(500));
    }

    [Test]
    public void What_does_not_fit_together_is_told()
    {
        using var folder = new TestFolder();
        Write(folder);
        byte[] codes = File.ReadAllBytes(folder["ecg.i32"]);
        byte[] whole = [.. codes];
        File.WriteAllBytes(folder["ecg.i32"], codes[..^6]);
        Assert.That(() => ReadAll(folder), Throws.TypeOf<InputFileException>().With.Message.Contains($"ends at byte {codes.Length - 6}, before all samples"));
        File.WriteAllBytes(folder["ecg.i32"], [.. codes, 0]);
        Assert.That(() => ReadAll(folder), Throws.TypeOf<InputFileException>().With.Message.Contains($"has {codes.Length + 1} bytes"));
        codes[3] = 0x40;
        File.WriteAllBytes(folder["ecg.i32"], codes);
        Assert.That(() => ReadAll(folder), Throws.TypeOf<InputFileException>().With.Message.Contains("byte 0: code").And.Message.Contains("lies outside of -131072 to 131071"));
        folder.Write("ecg-runs.csv", "first_sample,count,status\n0,99999999999999,0\n");
        Assert.That(() => ReadAll(folder), Throws.TypeOf<InputFileException>().With.Message.Contains("line 2").And.Message.Contains("beyond the end tick"));
        File.WriteAllBytes(folder["ecg.i32"], whole);
        folder.Write("ecg-runs.csv", "first_sample,count,status\n0,3,0\n2,1,0\n");
        Assert.That(() => ReadAll(folder), Throws.TypeOf<InputFileException>().With.Message.Contains("line 3"));
    }

    private static void ReadAll(TestFolder folder)
    {
        using var reader = new RawRecordingReader(folder.Root);
        var block = new SampleBlock(reader.Format, reader.EndTick);
        reader.Read(block, reader.EndTick);
    }

    // Every eleventh sample is missing, every seventh has a status.
    private static List<(int Channel, long Index, int Code, ushort Status)> Write(TestFolder folder)
    {
        StreamFormat format = Streams.Format();
        var random = new Random(5);
        var written = new List<(int Channel, long Index, int Code, ushort Status)>();
        using var writer = new RawRecordingWriter(name => File.Create(folder[name]), format);
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        for (int second = 0; second < Seconds; second++)
        {
            block.Begin(second * format.Clock.TicksPerSecond, (second + 1) * format.Clock.TicksPerSecond);
            for (int c = 0; c < format.Channels.Count; c++)
            {
                ChannelFormat channel = format.Channels[c];
                for (long i = second * channel.RateHz; i < (second + 1) * channel.RateHz; i++)
                {
                    if (i % 11 == 10)
                    {
                        continue;
                    }

                    block.Channels[c].Append(i, 1, out Span<int> codes, out Span<ushort> status);
                    codes[0] = random.Next(channel.MinimumCode, channel.MaximumCode + 1);
                    status[0] = (ushort)(i % 7 == 0 ? random.Next(1, 300) : 0);
                    written.Add((c, i, codes[0], status[0]));
                }
            }

            writer.Write(block);
        }

        writer.Complete();
        return written;
    }
}
