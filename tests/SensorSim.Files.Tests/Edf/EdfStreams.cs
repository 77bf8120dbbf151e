// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Output;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Edf;

/// <summary>One sample as a test sees it.</summary>
internal readonly record struct Sample(long Index, int Code, ushort Status);

/// <summary>Streams with known samples, and what a stream gives.</summary>
internal static class EdfStreams
{
    /// <summary>The formats of a chest strap and a finger clip with scales that no eight characters hold.</summary>
    public static StreamFormat TwoDevices => Streams.Format();

    /// <summary>One device: ECG, two lights and three axes, all scales exact.</summary>
    public static StreamFormat Wrist() => new(
    [
        Channel(ChannelName.Ecg, 250, 18, isSigned: true, 4.8 / (1 << 18)),
        Channel(ChannelName.Red, 100, 19, isSigned: false, 8192.0 / (1 << 19)),
        Channel(ChannelName.Infrared, 100, 24, isSigned: false, 0.001, zero: 100, polarity: -1),
        Channel(ChannelName.AccelX, 50, 16, isSigned: true, 16.0 / (1 << 16)),
        Channel(ChannelName.AccelY, 50, 16, isSigned: true, 16.0 / (1 << 16)),
        Channel(ChannelName.AccelZ, 50, 16, isSigned: true, 16.0 / (1 << 16)),
    ]);

    public static ChannelFormat Channel(ChannelName name, int rate, int bits, bool isSigned, double unit, int zero = 0, int polarity = 1) => new()
    {
        Name = name, Device = "wrist", RateHz = rate, Bits = bits, IsSigned = isSigned, UnitPerCode = unit, ZeroCode = zero, Polarity = polarity, DeclaredDelayNs = 12_345,
    };

    /// <summary>Every code of the converter in turn by a large step, extremes first; a status word that changes now and then.</summary>
    public static IEnumerable<Sample> Make(StreamFormat format, int channel, long endTick, Func<long, bool> isLost, Func<long, ushort> status)
    {
        ChannelFormat c = format.Channels[channel];
        long span = (long)c.MaximumCode - c.MinimumCode + 1;
        for (long i = 0; i < format.FirstSampleAtOrAfter(channel, endTick); i++)
        {
            if (!isLost(i))
            {
                int code = i switch { 0 => c.MinimumCode, 1 => c.MaximumCode, _ => (int)(c.MinimumCode + (i * 7919 % span)) };
                yield return new Sample(i, code, status(i));
            }
        }
    }

    /// <summary>Feeds samples as blocks.</summary>
    public static void Feed(StreamFormat format, Sample[][] samples, long endTick, int ticks, Action<SampleBlock> write)
    {
        var block = new SampleBlock(format, ticks);
        var next = new int[samples.Length];
        for (long tick = 0; tick < endTick; tick += ticks)
        {
            block.Begin(tick, Math.Min(endTick, tick + ticks));
            for (int c = 0; c < samples.Length; c++)
            {
                long end = format.FirstSampleAtOrAfter(c, block.EndTick);
                for (; next[c] < samples[c].Length && samples[c][next[c]].Index < end; next[c]++)
                {
                    block.Channels[c].Append(samples[c][next[c]].Index, 1, out Span<int> codes, out Span<ushort> status);
                    codes[0] = samples[c][next[c]].Code;
                    status[0] = samples[c][next[c]].Status;
                }
            }

            write(block);
        }
    }

    /// <summary>Writes a recording into a folder.</summary>
    public static EdfRecordingWriter Write(
        string folder, StreamFormat format, Sample[][] samples, long endTick, EdfWriteOptions? options = null, int ticks = 13, Action<EdfRecordingWriter>? more = null)
    {
        using var output = new OutputFolder(folder);
        using var writer = new EdfRecordingWriter(output, format, options);
        Feed(format, samples, endTick, ticks, writer.Write);
        more?.Invoke(writer);
        writer.Complete();
        output.Commit();
        return writer;
    }

    /// <summary>Reads a stream to its end.</summary>
    public static List<Sample>[] ReadAll(ISampleStream stream, int ticks)
    {
        var found = stream.Format.Channels.Select(_ => new List<Sample>()).ToArray();
        var block = new SampleBlock(stream.Format, ticks);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + ticks));
            for (int c = 0; c < found.Length; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int k = 0; k < run.Count; k++)
                    {
                        found[c].Add(new Sample(run.FirstIndex + k, block.Channels[c].Codes[run.Offset + k], block.Channels[c].Status[run.Offset + k]));
                    }
                }
            }
        }

        return found;
    }
}
