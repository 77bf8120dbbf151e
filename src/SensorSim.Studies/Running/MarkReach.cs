// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Tells at a glance that a mark is neither impossible nor a lie, as nearly every one is; of the rest <see cref="ImpossibleMarks"/> and
/// <see cref="Lies"/> say why.</summary>
/// <remarks>How far each channel reaches is found once a block, and not with every mark: it takes divisions.</remarks>
internal sealed class MarkReach
{
    private readonly long[] _steps;
    private readonly long[] _reach;
    private readonly StreamFormat _format;
    private readonly int _kinds;
    private long _endTick = long.MinValue;

    public MarkReach(StreamFormat format)
    {
        _format = format;
        _steps = new long[format.Channels.Count];
        _reach = new long[format.Channels.Count];
        _kinds = MarkKinds.All.Count;
        for (int i = 0; i < _steps.Length; i++)
        {
            _steps[i] = format.TicksPerSample(i);
        }
    }

    /// <summary>Whether nothing is wrong with a mark.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="beginTick">First tick of the block in which it was given; at the end of the stream of the last block.</param>
    /// <param name="endTick">First tick that has not been handed over.</param>
    public bool Holds(in Mark mark, long beginTick, long endTick)
    {
        if (endTick != _endTick)
        {
            Reach(endTick);
        }

        return (uint)mark.Channel < (uint)_steps.Length
            && (uint)mark.Kind < (uint)_kinds
            && IsWithin(mark.Channel, mark.Sample, mark.Fraction256)
            && mark.WindowSamples >= 0 && mark.WindowSamples <= mark.Sample + 1
            && mark.EmittedTick >= beginTick && mark.EmittedTick < endTick + _steps[mark.Channel]
            && (mark.PairedChannel == Mark.None
                || ((uint)mark.PairedChannel < (uint)_steps.Length && IsWithin(mark.PairedChannel, mark.PairedSample, mark.PairedFraction256)));
    }

    // The end itself may be meant, nothing after it.
    private bool IsWithin(int channel, long sample, byte fraction256) =>
        (ulong)sample < (ulong)_reach[channel] || (sample == _reach[channel] && fraction256 == 0);

    private void Reach(long endTick)
    {
        _endTick = endTick;
        for (int i = 0; i < _reach.Length; i++)
        {
            _reach[i] = _format.FirstSampleAtOrAfter(i, endTick);
        }
    }
}
