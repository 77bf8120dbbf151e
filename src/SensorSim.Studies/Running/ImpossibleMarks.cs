// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Marks that the stream cannot have: of no channel or kind, before its first sample, out of reach, with a window that is none.</summary>
internal static class ImpossibleMarks
{
    // Positions further out than this [s] fit no file and no clock; nobody runs a detector for 30 years.
    private const long LongestSeconds = 1_000_000_000;

    /// <summary>Why a mark cannot be, in one sentence; null when it can. Allocates only then.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="format">Format of the stream.</param>
    public static string? Of(in Mark mark, StreamFormat format)
    {
        if (!IsInReach(mark, format))
        {
            return $"The detector gave a mark of channel {mark.Channel}, kind {(int)mark.Kind}, sample {mark.Sample}, which the stream does not have, or of a time that no stream reaches.";
        }

        if (mark.Sample < 0)
        {
            return Sentence(mark, format, $"at sample {mark.Sample}; the first sample of a stream is 0.");
        }

        if (mark.PairedChannel != Mark.None && mark.PairedSample < 0)
        {
            return Sentence(mark, format, $"that belongs to sample {mark.PairedSample} of {format.Channels[mark.PairedChannel].Name.Text()}; the first sample of a stream is 0.");
        }

        if (mark.WindowSamples < 0)
        {
            return Sentence(mark, format, $"with a window of {mark.WindowSamples} samples; a window reaches back from the mark and is 0 or more.");
        }

        // The first 800 samples of a stream end with sample 799: a window may count both of its ends.
        return mark.WindowSamples > mark.Sample + 1
            ? Sentence(mark, format, $"at sample {mark.Sample} with a window of {mark.WindowSamples} samples, which begins before the stream.")
            : null;
    }

    private static string Sentence(in Mark mark, StreamFormat format, FormattableString rest) =>
        $"The detector gave a {mark.Kind.Text()} in {format.Channels[mark.Channel].Name.Text()} {rest.ToString(CultureInfo.InvariantCulture)}";

    private static bool IsInReach(in Mark mark, StreamFormat format) =>
        (uint)mark.Channel < (uint)format.Channels.Count
        && (uint)mark.Kind < (uint)MarkKinds.All.Count
        && mark.PairedChannel >= Mark.None && mark.PairedChannel < format.Channels.Count
        && IsInReach(mark.Sample, format.Channels[mark.Channel].RateHz)
        && IsInReach(mark.WindowSamples, format.Channels[mark.Channel].RateHz)
        && (mark.PairedChannel == Mark.None || IsInReach(mark.PairedSample, format.Channels[mark.PairedChannel].RateHz))
        && IsInReach(mark.EmittedTick, format.Clock.TicksPerSecond);

    private static bool IsInReach(long position, long perSecond) =>
        position > -LongestSeconds * perSecond && position < LongestSeconds * perSecond;
}
