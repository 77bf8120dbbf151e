// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Expectations;

/// <summary>The latest seconds of a stream, every channel; nothing allocated per block.</summary>
internal sealed class RecentSamples
{
    // No converter of at most 24 bits has this code.
    private const int Absent = int.MinValue;

    private readonly StreamFormat _format;
    private readonly int[][] _codes;
    private readonly long[] _end;

    /// <summary>Creates a memory of stated length.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="seconds">Length [s].</param>
    public RecentSamples(StreamFormat format, int seconds)
    {
        _format = format;
        _codes = [.. format.Channels.Select(c => new int[c.RateHz * seconds])];
        _end = new long[format.Channels.Count];
        Array.ForEach(_codes, codes => Array.Fill(codes, Absent));
    }

    /// <summary>First tick not yet seen.</summary>
    public long EndTick { get; private set; }

    public void Add(SampleBlock block)
    {
        for (int c = 0; c < _codes.Length; c++)
        {
            int[] codes = _codes[c];
            long end = _format.FirstSampleAtOrAfter(c, block.EndTick);
            for (long i = Math.Max(_end[c], end - codes.Length); i < end; i++)
            {
                codes[i % codes.Length] = Absent;
            }

            foreach (SampleRun run in block.Channels[c].Runs)
            {
                for (int i = 0; i < run.Count; i++)
                {
                    codes[(run.FirstIndex + i) % codes.Length] = block.Channels[c].Codes[run.Offset + i];
                }
            }

            _end[c] = end;
        }

        EndTick = block.EndTick;
    }

    /// <summary>Physical values of a channel [its unit]; NaN where no sample was delivered, and where the memory does not reach.</summary>
    public double[] Values(int channel, long first, long end)
    {
        double[] values = new double[Math.Max(0, end - first)];
        int[] codes = _codes[channel];
        for (int i = 0; i < values.Length; i++)
        {
            long index = first + i;
            int code = index >= 0 && index < _end[channel] && index >= _end[channel] - codes.Length ? codes[index % codes.Length] : Absent;
            values[i] = code == Absent ? double.NaN : _format.Channels[channel].Physical(code);
        }

        return values;
    }
}
