// SPDX-License-Identifier: MIT
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Exports;

/// <summary>A recording of two channels with gaps and status words whose samples follow a rule.</summary>
internal static class SampleRecording
{
    /// <summary>End of the recording; lies after the last sample.</summary>
    public const long EndTick = 2501;

    // Single samples, a stretch, the first one, and the end of the recording.
    private static readonly HashSet<long> s_lost =
        [0, 7, 9, 11, .. Enumerable.Range(100, 150).Select(i => (long)i), .. Enumerable.Range(990, 300).Select(i => (long)i)];

    public static IEnumerable<(long Index, int Code, ushort Status)> Expected(int channel)
    {
        StreamFormat format = Streams.Format();
        for (long i = 0; i < format.FirstSampleAtOrAfter(channel, EndTick); i++)
        {
            if (!s_lost.Contains(i))
            {
                ChannelFormat c = format.Channels[channel];
                long span = (long)c.MaximumCode - c.MinimumCode + 1;
                yield return (i, (int)(c.MinimumCode + (i * 7919 % span)), (ushort)(i * 31 % 65_536));
            }
        }
    }

    /// <summary>Writes it in blocks of a number of ticks.</summary>
    public static void Write(string path, int ticks, Func<OutputFolder, StreamFormat, IRecordingWriter> make)
    {
        using var output = new OutputFolder(path);
        StreamFormat format = Streams.Format();
        using IRecordingWriter writer = make(output, format);
        var block = new SampleBlock(format, ticks);
        var samples = new[] { Expected(0).ToArray(), Expected(1).ToArray() };
        for (long tick = 0; tick < EndTick; tick += ticks)
        {
            block.Begin(tick, Math.Min(EndTick, tick + ticks));
            for (int c = 0; c < 2; c++)
            {
                long first = format.FirstSampleAtOrAfter(c, block.BeginTick);
                long end = format.FirstSampleAtOrAfter(c, block.EndTick);
                foreach ((long index, int code, ushort word) in samples[c].Where(s => s.Index >= first && s.Index < end))
                {
                    block.Channels[c].Append(index, 1, out Span<int> codes, out Span<ushort> status);
                    codes[0] = code;
                    status[0] = word;
                }
            }

            writer.Write(block);
        }

        writer.Complete();
        output.Commit();
    }
}
