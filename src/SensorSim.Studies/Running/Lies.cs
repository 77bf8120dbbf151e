// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Marks that claim what their detector could not know, or to have been given earlier than they were.</summary>
/// <remarks>A detector that works on its samples as they come never lies by accident: latency is measured from what it claims here.</remarks>
internal static class Lies
{
    /// <summary>Why a mark is a lie; null when it is none. Allocates only then.</summary>
    /// <param name="mark">A mark of a channel that the stream has.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="beginTick">First tick of the block in which it was given; at the end of the stream of the last block.</param>
    /// <param name="endTick">First tick that has not been handed over.</param>
    public static string? Of(in Mark mark, StreamFormat format, long beginTick, long endTick)
    {
        if (IsToCome(mark.Channel, mark.Position256, format, endTick))
        {
            return ToCome(mark, mark.Channel, mark.Sample, format, endTick);
        }

        if (mark.PairedChannel != Mark.None && IsToCome(mark.PairedChannel, (mark.PairedSample * 256) + mark.PairedFraction256, format, endTick))
        {
            return ToCome(mark, mark.PairedChannel, mark.PairedSample, format, endTick);
        }

        // Who takes the end of its latest sample for the end of the data may be a sampling interval beyond the block.
        return mark.EmittedTick >= beginTick && mark.EmittedTick < endTick + format.TicksPerSample(mark.Channel)
            ? null
            : string.Create(
                CultureInfo.InvariantCulture,
                $"The detector gave a {mark.Kind.Text()} in the block from {format.Clock.Seconds(beginTick):0.0##} to {format.Clock.Seconds(endTick):0.0##} s and claims to have given it at {format.Clock.Seconds(mark.EmittedTick):0.0##} s.");
    }

    // The end itself may be meant: a window that closes there, a state that holds from there on.
    private static bool IsToCome(int channel, long position256, StreamFormat format, long endTick) =>
        position256 > format.FirstSampleAtOrAfter(channel, endTick) * 256;

    private static string ToCome(in Mark mark, int channel, long sample, StreamFormat format, long endTick) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"The detector gave a {mark.Kind.Text()} at sample {sample} of {format.Channels[channel].Name.Text()} when it had been handed {format.FirstSampleAtOrAfter(channel, endTick)} samples, up to {format.Clock.Seconds(endTick):0.0##} s.");
}
