// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>A block of samples as plain arrays, as the twin takes it.</summary>
internal sealed class FlatBlock
{
    private const int WordsOfRun = 4;

    public long BeginTick { get; private set; }

    public long EndTick { get; private set; }

    public int[] Codes { get; private set; } = new int[1];

    public ushort[] Status { get; private set; } = new ushort[1];

    /// <summary>Role, first index, place in codes and status, count.</summary>
    public long[] Runs { get; private set; } = new long[WordsOfRun];

    public int RunCount { get; private set; }

    public int SampleCount { get; private set; }

    public void Fill(StreamFormat format, SampleBlock block)
    {
        BeginTick = block.BeginTick;
        EndTick = block.EndTick;
        RunCount = 0;
        SampleCount = 0;
        for (int c = 0; c < format.Channels.Count; c++)
        {
            Add((int)SetupOf.RoleOf(format.Channels[c].Name), block.Channels[c]);
        }
    }

    private void Add(int role, ChannelBlock channel)
    {
        int samples = SampleCount + channel.Count;
        int runs = (RunCount + channel.Runs.Length) * WordsOfRun;
        if (samples > Codes.Length)
        {
            int[] codes = Codes;
            ushort[] status = Status;
            Array.Resize(ref codes, 2 * samples);
            Array.Resize(ref status, 2 * samples);
            (Codes, Status) = (codes, status);
        }

        if (runs > Runs.Length)
        {
            long[] grown = Runs;
            Array.Resize(ref grown, 2 * runs);
            Runs = grown;
        }

        channel.Codes.CopyTo(Codes.AsSpan(SampleCount));
        channel.Status.CopyTo(Status.AsSpan(SampleCount));
        foreach (SampleRun run in channel.Runs)
        {
            ((ReadOnlySpan<long>)[role, run.FirstIndex, SampleCount + run.Offset, run.Count]).CopyTo(Runs.AsSpan(RunCount++ * WordsOfRun));
        }

        SampleCount = samples;
    }
}
