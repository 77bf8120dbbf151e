// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Counts the marks of a run by channel and kind.</summary>
public sealed class MarkCounts : IRunSink
{
    private readonly StreamFormat _format;
    private readonly long[,] _counts;

    /// <summary>Creates the counter.</summary>
    /// <param name="format">Format of the stream.</param>
    public MarkCounts(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _format = format;
        _counts = new long[format.Channels.Count, MarkKinds.All.Count];
    }

    /// <summary>A row for each channel and kind that occurred, in that order.</summary>
    public IEnumerable<(string Channel, string Kind, long Count)> Rows =>
        from channel in Enumerable.Range(0, _format.Channels.Count)
        from kind in MarkKinds.All
        let count = _counts[channel, (int)kind.Kind]
        where count > 0
        select (_format.Channels[channel].Name.Text(), kind.Text, count);

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // Samples are not counted here.
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // Nor is truth.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark) => _counts[mark.Channel, (int)mark.Kind]++;
}
