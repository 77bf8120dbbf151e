// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Support;

/// <summary>The beats of a body over a stretch of time, with their truth rows.</summary>
internal sealed class Heartbeats
{
    public Heartbeats(KeyValues values, ulong seed, double untilSeconds)
    {
        Body = new BodyModel(values, seed);
        for (long id = BodyModel.FirstBeatId; Body.TryBeat(id, untilSeconds, out BeatView beat); id++)
        {
            Beats.Add(beat);
            Body.PlanUntil(beat.Seconds);
            while (Body.Truth.TryTake(out TruthEvent row))
            {
                Rows.Add(row);
            }
        }

        Body.PlanUntil(untilSeconds);
        while (Body.Truth.TryTake(out TruthEvent row))
        {
            Rows.Add(row);
        }
    }

    public BodyModel Body { get; }

    /// <summary>Beat i has number i; the first lie before time 0.</summary>
    public List<BeatView> Beats { get; } = [];

    public List<TruthEvent> Rows { get; } = [];

    /// <summary>Truth times of a kind [s], in order.</summary>
    public double[] Seconds(MarkKind kind) => [.. Rows.Where(r => r.Kind == kind).Select(r => r.TimeNs * 1e-9)];

    /// <summary>Truth times of a kind [ns] with their beat, one channel.</summary>
    public (long Beat, long Ns)[] Times(MarkKind kind, Signals.Streams.ChannelName channel) =>
        [.. Rows.Where(r => r.Kind == kind && r.Channel == channel).Select(r => (r.BeatId, r.TimeNs))];

    /// <summary>Truth values of a kind on one channel, in order.</summary>
    public double[] Values(MarkKind kind, Signals.Streams.ChannelName channel) =>
        [.. Rows.Where(r => r.Kind == kind && r.Channel == channel).Select(r => r.Value)];
}
