// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Readings;

/// <summary>The usable time of every reading that a record can have.</summary>
internal sealed class UsableTable
{
    private const int ChannelCount = 8;
    private readonly UsableTime?[] _own = new UsableTime?[ChannelCount];
    private readonly UsableTime?[] _joint = new UsableTime?[ChannelCount];

    public UsableTable(Func<ChannelName, ScoredSpan?> spanOf)
    {
        ScoredSpan? ecg = spanOf(ChannelName.Ecg);
        for (ChannelName channel = ChannelName.Ecg; channel <= ChannelName.Green; channel++)
        {
            if (spanOf(channel) is ScoredSpan span)
            {
                _own[(int)channel] = new UsableTime([span], isAnyEnough: false);
                _joint[(int)channel] = ecg is null || ecg == span ? _own[(int)channel] : new UsableTime([span, ecg], isAnyEnough: false);
            }
        }

        // A detector works on one colour; infrared is the usual one. A record from files names every channel there might be.
        ScoredSpan? light = spanOf(ChannelName.Infrared) ?? spanOf(ChannelName.Green) ?? spanOf(ChannelName.Red);
        Fused = new UsableTime([.. new[] { ecg, light }.OfType<ScoredSpan>()], isAnyEnough: true);
    }

    /// <summary>Time in which the ECG or the light is usable.</summary>
    public UsableTime Fused { get; }

    /// <summary>Usable time of a kind of reading in a channel.</summary>
    public UsableTime Of(MarkKind kind, ChannelName channel) => kind == MarkKind.HeartRateFusedBpm
        ? Fused
        : (ReadingGate.IsJoint(kind) ? _joint : _own)[(int)channel] ?? Fused;

    /// <summary>Counts everything before a time.</summary>
    public void Count(long upToNs)
    {
        Fused.Count(upToNs);
        for (int i = 0; i < ChannelCount; i++)
        {
            _own[i]?.Count(upToNs);
            if (_joint[i] != _own[i])
            {
                _joint[i]?.Count(upToNs);
            }
        }
    }
}
