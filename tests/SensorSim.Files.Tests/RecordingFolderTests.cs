// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Files.Recordings;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

public class RecordingFolderTests
{
    // Samples of each channel that the sensor loses: single ones, a stretch, the first one, and the end of the recording.
    private static readonly HashSet<long> s_lost =
        [0, 7, 9, 11, .. Enumerable.Range(100, 150).Select(i => (long)i), .. Enumerable.Range(990, 300).Select(i => (long)i)];

    private const long EndTick = 2501;

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(4096)]
    public void RoundTrip_GapsAndStatusAnyCut_IsExact(int ticks)
    {
        using var folder = new TestFolder();
        WriteRecording(folder["rec"]);
        using var reader = new RecordingFolderReader(folder["rec"]);
        Assert.That(reader.EndTick, Is.EqualTo(EndTick));
        Assert.That(reader.Format.Channels, Is.EqualTo(Streams.Format().Channels));
        var block = new SampleBlock(reader.Format, ticks);
        var found = new List<(int Channel, long Index, int Code, ushort Status)>[] { [], [] };
        while (reader.PositionTick < reader.EndTick)
        {
            reader.Read(block, Math.Min(reader.EndTick, reader.PositionTick + ticks));
            for (int c = 0; c < 2; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int k = 0; k < run.Count; k++)
                    {
                        found[c].Add((c, run.FirstIndex + k, block.Channels[c].Codes[run.Offset + k], block.Channels[c].Status[run.Offset + k]));
                    }
                }
            }
        }

        for (int c = 0; c < 2; c++)
        {
            Assert.That(found[c], Is.EqualTo(Expected(c).ToList()));
        }
    }

    [TestCase("ecg.csv", "sample,code,status\n5,1,0\n5,1,0\n", 3, 1, "larger than in the row before")]
    [TestCase("ecg.csv", "sample,code,status\n5,131072,0\n", 2, 3, "code must be a whole number from -131072 to 131071")]
    [TestCase("ecg.csv", "sample,code,status\n5,1,65536\n", 2, 5, "status must be a whole number from 0 to 65535")]
    [TestCase("ecg.csv", "sample,code,status\n1251,1,0\n", 2, 1, "lies after the end tick")]
    [TestCase("ecg.csv", "sample,code\n", 1, 0, "without column status")]
    [TestCase("channels.csv", RecordingChannels + "ecg,a,250,18,1,V,0.1,0,1,0,10\n", 2, 16, "unit must be mV for ecg")]
    [TestCase("channels.csv", RecordingChannels + "ecg,a,250,18,1,mV,0.1,0,0,0,10\n", 2, 25, "polarity must be 1 or -1")]
    [TestCase("channels.csv", RecordingChannels + "ecg,a,250,18,1,mV,-0.1,0,1,0,10\n", 2, 19, "unit_per_code must be above 0")]
    [TestCase("channels.csv", RecordingChannels + "red,a,250,18,1,nA,1,0,1,0,10\necg,a,250,18,1,mV,1,0,1,0,10\n", 3, 1, "must come before red")]
    [TestCase("channels.csv", RecordingChannels, 1, 0, "there is no channel")]
    public void Reader_BrokenFile_IsNamedWithLineAndColumn(string file, string text, long line, int column, string message)
    {
        using var folder = new TestFolder();
        WriteRecording(folder["rec"]);
        string path = folder.Write(Path.Combine("rec", file), text);
        InputFileException? mistake = Assert.Throws<InputFileException>(() =>
        {
            using var reader = new RecordingFolderReader(folder["rec"]);
            var block = new SampleBlock(reader.Format, reader.EndTick);
            reader.Read(block, reader.EndTick);
        });
        Assert.That((mistake!.File, mistake.Line, mistake.Column), Is.EqualTo((path, line, column)));
        Assert.That(mistake.Message, Does.Contain(message));
    }

    [Test]
    public void Reader_ChannelFileMissing_IsNamed()
    {
        using var folder = new TestFolder();
        WriteRecording(folder["rec"]);
        File.Delete(folder["rec/infrared.csv"]);
        Assert.That(
            () => new RecordingFolderReader(folder["rec"]),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("infrared.csv: there is no such file"));
    }

    [Test]
    public void Writer_BlockLeftOut_IsRefused()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["rec"]);
        using var writer = new RecordingFolderWriter(output, Streams.Format());
        var block = new SampleBlock(Streams.Format(), 10);
        block.Begin(5, 10);
        Assert.That(() => writer.Write(block), Throws.ArgumentException.With.Message.Contains("ended at 0"));
    }

    private const string RecordingChannels =
        "channel,device,rate_hz,bits,signed,unit,unit_per_code,zero_code,polarity,declared_delay_ns,end_tick\n";

    private static IEnumerable<(int Channel, long Index, int Code, ushort Status)> Expected(int channel)
    {
        StreamFormat format = Streams.Format();
        for (long i = 0; i < format.FirstSampleAtOrAfter(channel, EndTick); i++)
        {
            if (!s_lost.Contains(i))
            {
                ChannelFormat c = format.Channels[channel];
                long span = (long)c.MaximumCode - c.MinimumCode + 1;
                yield return (channel, i, (int)(c.MinimumCode + (i * 7919 % span)), (ushort)(i * 31 % 65_536));
            }
        }
    }

    private static void WriteRecording(string path)
    {
        using var output = new OutputFolder(path);
        using var writer = new RecordingFolderWriter(output, Streams.Format());
        StreamFormat format = Streams.Format();
        var block = new SampleBlock(format, 13);
        var samples = new[] { Expected(0).ToArray(), Expected(1).ToArray() };
        for (long tick = 0; tick < EndTick; tick += 13)
        {
            block.Begin(tick, Math.Min(EndTick, tick + 13));
            for (int c = 0; c < 2; c++)
            {
                long first = format.FirstSampleAtOrAfter(c, block.BeginTick);
                long end = format.FirstSampleAtOrAfter(c, block.EndTick);
                foreach (var sample in samples[c].Where(s => s.Index >= first && s.Index < end))
                {
                    block.Channels[c].Append(sample.Index, 1, out Span<int> codes, out Span<ushort> status);
                    codes[0] = sample.Code;
                    status[0] = sample.Status;
                }
            }

            writer.Write(block);
        }

        writer.Complete();
        output.Commit();
    }
}
