// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Counts the samples of a run by channel: those that came, those that did not, and those with a word of status.</summary>
public sealed class SampleCounts : IRunSink
{
    private readonly StreamFormat _format;
    private readonly long[] _came;
    private readonly long[] _flagged;
    private long _beginTick = -1;
    private long _endTick;

    /// <summary>Creates the counter.</summary>
    /// <param name="format">Format of the stream.</param>
    public SampleCounts(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _format = format;
        _came = new long[format.Channels.Count];
        _flagged = new long[format.Channels.Count];
    }

    /// <summary>A row for each channel: samples that came, that did not, and that came with a word of status that is not 0.</summary>
    public IEnumerable<(string Channel, long Came, long Missing, long Flagged)> Rows => Enumerable.Range(0, _came.Length).Select(c => (
        _format.Channels[c].Name.Text(),
        _came[c],
        _format.FirstSampleAtOrAfter(c, _endTick) - _format.FirstSampleAtOrAfter(c, Math.Max(0, _beginTick)) - _came[c],
        _flagged[c]));

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        _beginTick = _beginTick < 0 ? block.BeginTick : _beginTick;
        _endTick = block.EndTick;
        for (int c = 0; c < _came.Length; c++)
        {
            _came[c] += block.Channels[c].Count;
            foreach (ushort status in block.Channels[c].Status)
            {
                _flagged[c] += status != 0 ? 1 : 0;
            }
        }
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // Only samples are counted here.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        // Only samples are counted here.
    }
}
