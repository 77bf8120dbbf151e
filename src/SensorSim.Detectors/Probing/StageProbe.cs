// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Probing;

/// <summary>Takes traced values as they are made.</summary>
public interface IStageSink
{
    /// <summary>A value of a point that is wanted.</summary>
    /// <param name="point">Where it was made.</param>
    /// <param name="channel">Channel of the sample whose arrival made it.</param>
    /// <param name="sample">Index of that sample in its channel.</param>
    /// <param name="value">The value.</param>
    void Take(ProbePoint point, ChannelName channel, long sample, int value);
}

/// <summary>The probe of the command: audits, traces, or both. Nothing is allocated per value.</summary>
public struct StageProbe : IProbe
{
    private ulong _wanted;
    private ChannelName _channel;
    private long _sample;

    /// <inheritdoc/>
    public readonly int MostAtOnce => 1;

    /// <summary>Counts bits; null: nothing does.</summary>
    public StageAudit? Audit { get; set; }

    /// <summary>Takes values of the points asked for; null: nothing does.</summary>
    public IStageSink? Sink { get; private set; }

    /// <summary>Hands the values of some points to a sink.</summary>
    /// <param name="sink">Takes them.</param>
    /// <param name="points">Which.</param>
    public void Trace(IStageSink sink, IEnumerable<ProbePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        Sink = sink;
        _wanted = points.Aggregate(0UL, (mask, point) => mask | (1UL << (int)point));
    }

    /// <inheritdoc/>
    public void At(int channel, long sample)
    {
        // The library counts what it measures in the order of the channel names.
        _channel = (ChannelName)channel;
        _sample = sample;
    }

    /// <inheritdoc/>
    public readonly void See(ProbePoint point, int value)
    {
        Audit?.See(point, value);
        if ((_wanted >> (int)point & 1) != 0)
        {
            Sink!.Take(point, _channel, _sample, value);
        }
    }

    /// <inheritdoc/>
    public readonly void Round(ProbePoint point, int before, int after, int bits) => Audit?.Round(point, before, after, bits);
}
