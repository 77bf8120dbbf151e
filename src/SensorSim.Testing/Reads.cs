// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>Begins a constraint on readings that a detector gives.</summary>
public static class Reads
{
    /// <summary>Heart rate of the ECG [bpm].</summary>
    public static ReadingConstraint HeartRate => Value(ChannelName.Ecg, MarkKind.HeartRateBpm);

    /// <summary>Heart rate of infrared light [bpm].</summary>
    public static ReadingConstraint PulseRate => Value(ChannelName.Infrared, MarkKind.HeartRateBpm);

    /// <summary>Pulse arrival time in infrared light [ms].</summary>
    public static ReadingConstraint ArrivalTime => Value(ChannelName.Infrared, MarkKind.ArrivalTimeMs);

    /// <summary>Oxygen saturation, told on the infrared channel as truth is [%].</summary>
    public static ReadingConstraint OxygenSaturation => Value(ChannelName.Infrared, MarkKind.Spo2Percent);

    /// <summary>Any reading that can be scored.</summary>
    /// <param name="channel">Channel of the marks.</param>
    /// <param name="kind">Kind of reading.</param>
    /// <exception cref="ArgumentException">The kind is not scored as a reading.</exception>
    public static ReadingConstraint Value(ChannelName channel, MarkKind kind) => ReadingGate.Kinds.Contains(kind)
        ? new ReadingConstraint(new RowPlan(channel, kind, [], false, null))
        : throw new ArgumentException($"{kind.Text()} is not scored as a reading; those are {string.Join(", ", ReadingGate.Kinds.Select(k => k.Text()))}.", nameof(kind));
}
