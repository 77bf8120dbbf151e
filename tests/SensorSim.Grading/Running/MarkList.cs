// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Grading.Running;

/// <summary>Keeps marks, true R peaks and unusable stretches of a run, all in body time.</summary>
internal sealed class MarkList : IRunSink
{
    private readonly StreamFormat _format;
    private readonly ChannelDelay[] _delays;
    private readonly Func<MarkKind, bool> _isKept;

    /// <summary>Creates the sink.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="isKept">Which kinds of marks to keep.</param>
    public MarkList(IAcquiredStream stream, Func<MarkKind, bool> isKept)
    {
        _format = stream.Format;
        _delays = [.. _format.Channels.Zip(stream.Clocks, (c, clock) => new ChannelDelay(c.Name, c.DeclaredDelayNs, clock.OffsetNs, clock.Ppm))];
        _isKept = isKept;
    }

    /// <summary>Marks in order of emission; time, window and emission in body time.</summary>
    public List<TimedMark> Marks { get; } = [];

    /// <summary>True R peaks in order of time.</summary>
    public List<TruthEvent> Beats { get; } = [];

    /// <summary>Unusable stretches, in pieces that touch.</summary>
    public List<UnusableStretch> Unusable { get; } = [];

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // Samples are not kept.
    }

    /// <inheritdoc/>
    public void OnAcquisition(in AcquisitionEvent happened)
    {
        int channel = _format.IndexOf(happened.Channel);
        if (happened.Kind.IsUnusable() && channel >= 0)
        {
            Unusable.Add(new UnusableStretch(happened.Channel, _delays[channel].BodyNs(happened.BeginNs), _delays[channel].BodyNs(happened.EndNs)));
        }
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        if (truth.Kind == MarkKind.RPeak)
        {
            Beats.Add(truth);
        }
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        if (_isKept(mark.Kind))
        {
            ChannelDelay delay = _delays[mark.Channel];
            TimedMark timed = TimedMark.From(mark, _format);
            Marks.Add(timed with
            {
                TimeNs = delay.BodyNs(timed.TimeNs),
                EmittedTimeNs = delay.BodyNs(timed.EmittedTimeNs),
                WindowBeginNs = timed.WindowBeginNs is long begin ? delay.BodyNs(begin) : null,
            });
        }
    }
}
