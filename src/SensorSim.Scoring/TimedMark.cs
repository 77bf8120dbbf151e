// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>A detector's answer with every position turned into nominal device time of its own channel.</summary>
public readonly record struct TimedMark
{
    /// <summary>Creates an answer without value, pair or window.</summary>
    public TimedMark()
    {
    }

    /// <summary>Channel it speaks of.</summary>
    public ChannelName Channel { get; init; }

    /// <summary>What is reported.</summary>
    public MarkKind Kind { get; init; }

    /// <summary>Device time [ns]; of a reading with a window, the end of the window.</summary>
    public long TimeNs { get; init; }

    /// <summary>Value in the kind's unit; NaN when it has none.</summary>
    public double Value { get; init; } = double.NaN;

    /// <summary>Channel of the paired mark.</summary>
    public ChannelName PairedChannel { get; init; } = ChannelName.Ecg;

    /// <summary>Device time of the paired mark [ns]; null when nothing is paired.</summary>
    public long? PairedTimeNs { get; init; }

    /// <summary>Begin of the averaging window, device time [ns]; null when there is none.</summary>
    public long? WindowBeginNs { get; init; }

    /// <summary>End of the data the detector had seen, device time [ns].</summary>
    public long EmittedTimeNs { get; init; }

    /// <summary>Turns a mark's positions into nominal device time.</summary>
    /// <param name="mark">The mark; its channels exist in the format.</param>
    /// <param name="format">Format of the stream.</param>
    public static TimedMark From(in Mark mark, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        bool isPaired = mark.PairedChannel != Mark.None;
        return new TimedMark
        {
            Channel = format.Channels[mark.Channel].Name,
            Kind = mark.Kind,
            TimeNs = format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256),
            Value = mark.HasValue ? mark.Value : double.NaN,
            PairedChannel = isPaired ? format.Channels[mark.PairedChannel].Name : ChannelName.Ecg,
            PairedTimeNs = isPaired ? format.DeviceTimeNs(mark.PairedChannel, mark.PairedSample, mark.PairedFraction256) : null,
            WindowBeginNs = mark.WindowSamples > 0
                ? format.DeviceTimeNs(mark.Channel, mark.Sample - mark.WindowSamples, mark.Fraction256)
                : null,
            EmittedTimeNs = format.Clock.Nanoseconds(mark.EmittedTick),
        };
    }
}
