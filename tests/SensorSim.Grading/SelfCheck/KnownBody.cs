// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.SelfCheck;

/// <summary>Truth of the last minute, and where signals are unusable.</summary>
internal sealed class KnownBody
{
    private readonly List<(MarkKind Kind, long TimeNs, double Value, long BeatId)> _values = [];
    private readonly List<(ChannelName Channel, long BeginNs, long EndNs)> _unusable = [];

    /// <summary>Adds a row of truth of the ECG or of infrared.</summary>
    public void Add(in TruthEvent truth)
    {
        if (truth.Kind is MarkKind.RPeak or MarkKind.PatMs or MarkKind.Spo2Percent or MarkKind.PerfusionIndexPercent)
        {
            _values.Add((truth.Kind, truth.TimeNs, truth.Value, truth.BeatId));
        }
    }

    /// <summary>Adds what the acquisition did.</summary>
    public void Add(in AcquisitionEvent happened)
    {
        if (happened.Kind.IsUnusable())
        {
            _unusable.Add((happened.Channel, happened.BeginNs, happened.EndNs));
        }
    }

    /// <summary>Values of a kind from one time to another.</summary>
    public (long TimeNs, double Value, long BeatId)[] Values(MarkKind kind, long beginNs, long endNs) =>
        [.. _values.Where(v => v.Kind == kind && v.TimeNs >= beginNs && v.TimeNs <= endNs).Select(v => (v.TimeNs, v.Value, v.BeatId)).OrderBy(v => v.TimeNs)];

    /// <summary>Whether a channel is usable within some milliseconds of a time; declared delays are shorter.</summary>
    public bool IsUsable(ChannelName channel, long timeNs) =>
        !_unusable.Any(u => u.Channel == channel && u.BeginNs - 20_000_000 <= timeNs && timeNs <= u.EndNs + 20_000_000);

    /// <summary>Forgets what is old.</summary>
    public void ForgetBefore(long timeNs)
    {
        _values.RemoveAll(v => v.TimeNs < timeNs);
        _unusable.RemoveAll(u => u.EndNs < timeNs);
    }
}
