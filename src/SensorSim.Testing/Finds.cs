// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>Begins a constraint on events that a detector marks.</summary>
public static class Finds
{
    /// <summary>R peaks of the ECG.</summary>
    public static EventConstraint RPeaks => Events(ChannelName.Ecg, MarkKind.RPeak);

    /// <summary>Feet of the pulse wave by tangents, in infrared light.</summary>
    public static EventConstraint PulseFeet => Events(ChannelName.Infrared, MarkKind.PulseFootTangent);

    /// <summary>Systolic peaks of the pulse wave, in infrared light.</summary>
    public static EventConstraint SystolicPeaks => Events(ChannelName.Infrared, MarkKind.SystolicPeak);

    /// <summary>Any event that truth has.</summary>
    /// <param name="channel">Channel of the marks.</param>
    /// <param name="kind">A wave of the ECG or a point of the pulse wave.</param>
    /// <exception cref="ArgumentException">The kind is not scored as an event.</exception>
    public static EventConstraint Events(ChannelName channel, MarkKind kind) => kind <= MarkKind.DiastolicPeak
        ? new EventConstraint(new RowPlan(channel, kind, [], false, null))
        : throw new ArgumentException($"{kind.Text()} is not scored as an event; those from {MarkKind.RPeak.Text()} to {MarkKind.DiastolicPeak.Text()} are.", nameof(kind));
}
