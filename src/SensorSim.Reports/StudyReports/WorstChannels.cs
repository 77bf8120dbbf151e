// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Which channels have to do with a requirement, and so belong into the picture of a run that falls short of it.</summary>
internal static class WorstChannels
{
    /// <summary>The axes of the accelerometer.</summary>
    internal static IReadOnlyList<ChannelName> Axes { get; } = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];

    /// <summary>
    /// Numbers of the channels, in order: its own; of a reading made of beat and pulse the ECG too, of a saturation red and infrared, of a heart
    /// rate of several signals the ECG and every light.
    /// </summary>
    internal static IEnumerable<int> Of(RequirementOnRow requirement, StreamFormat format) =>
        Enumerable.Range(0, format.Channels.Count).Where(c => IsOfIt(requirement, format.Channels[c].Name));

    /// <summary>Whether movement matters: a pulse is moved, the ECG has artefacts of its own.</summary>
    internal static bool NeedsMovement(RequirementOnRow requirement) =>
        IsLight(requirement.Channel) || requirement.Definition.Kind == MarkKind.HeartRateFusedBpm;

    private static bool IsOfIt(RequirementOnRow requirement, ChannelName channel) => channel == requirement.Channel || requirement.Definition.Kind switch
    {
        MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs or MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg => channel == ChannelName.Ecg,
        MarkKind.Spo2Percent => channel is ChannelName.Red or ChannelName.Infrared,
        MarkKind.HeartRateFusedBpm => channel == ChannelName.Ecg || IsLight(channel),
        _ => false,
    };

    private static bool IsLight(ChannelName channel) => channel is ChannelName.Red or ChannelName.Infrared or ChannelName.Green;
}
