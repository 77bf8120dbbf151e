// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Replays;

/// <summary>Copies samples from one numbering to another.</summary>
internal static class ShiftedSamples
{
    /// <summary>Appends all samples of a channel.</summary>
    /// <param name="from">The samples.</param>
    /// <param name="to">Receives them.</param>
    /// <param name="shift">Added to the number of each.</param>
    public static void Append(ChannelBlock from, ChannelBlock to, long shift)
    {
        foreach (SampleRun run in from.Runs)
        {
            to.Append(run.FirstIndex + shift, run.Count, out Span<int> codes, out Span<ushort> status);
            from.Codes.Slice(run.Offset, run.Count).CopyTo(codes);
            from.Status.Slice(run.Offset, run.Count).CopyTo(status);
        }
    }
}
