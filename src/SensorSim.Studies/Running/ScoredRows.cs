// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Which rows of scores a detector owes: R peaks of the ECG, and feet by tangents of one optical channel.</summary>
public static class ScoredRows
{
    private static readonly ChannelName[] s_optical = [ChannelName.Infrared, ChannelName.Green, ChannelName.Red];

    /// <summary>Options for a stream.</summary>
    public static ScoringOptions Options(StreamFormat format) => Options(format.Channels.Select(c => c.Name).ToHashSet());

    /// <summary>Options for a record with given channels.</summary>
    public static ScoringOptions Options(IReadOnlySet<ChannelName> channels)
    {
        var rows = new List<ExpectedRow>();
        if (channels.Contains(ChannelName.Ecg))
        {
            rows.Add(new ExpectedRow(ChannelName.Ecg, MarkKind.RPeak));
        }

        // A detector works on one colour; infrared is the usual one.
        foreach (ChannelName channel in s_optical.Where(channels.Contains).Take(1))
        {
            rows.Add(new ExpectedRow(channel, MarkKind.PulseFootTangent));
        }

        return new ScoringOptions { ExpectedRows = rows };
    }
}
