// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.WorstCases;

/// <summary>Finds the stretches in which a reading should stand and does not.</summary>
/// <remarks>
/// As its availability is scored: a reading stands for 5 s from its emission, or until its gate shuts; what is unusable in its channel, or for
/// a reading of two channels in the ECG, is no gap. Unusable stretches of a heart rate made from several signals are not taken off.
/// </remarks>
internal sealed class ReadingGaps : IRunSink
{
    private const long ValidNs = 5_000_000_000;
    private const long WorthTellingNs = 1_000_000_000;

    private readonly StreamFormat _format;
    private readonly ChannelDelay[] _delays;
    private readonly ChannelName _channel;
    private readonly MarkKind _kind;
    private readonly bool _isJoint;
    private readonly List<(long BeginNs, long EndNs)> _standing = [];
    private readonly List<(long BeginNs, long EndNs)> _unusable = [];

    /// <summary>Creates the sink.</summary>
    /// <param name="stream">The stream of the run.</param>
    /// <param name="channel">Channel of the reading.</param>
    /// <param name="kind">Kind of reading.</param>
    internal ReadingGaps(IToldStream stream, ChannelName channel, MarkKind kind)
    {
        _format = stream.Format;
        _delays = [.. stream.Format.Channels.Select((c, i) => new ChannelDelay(c.Name, c.DeclaredDelayNs, stream.Clocks[i].OffsetNs, stream.Clocks[i].Ppm))];
        _channel = channel;
        _kind = kind;
        _isJoint = kind is MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs or MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg;
    }

    /// <summary>The gaps of at least a second between two times, body time [ns]; of shorter ones only the longest, when all are.</summary>
    /// <param name="beginNs">First scored instant [ns].</param>
    /// <param name="endNs">First instant no longer scored [ns].</param>
    internal IReadOnlyList<(long BeginNs, long EndNs)> Between(long beginNs, long endNs)
    {
        var gaps = new List<(long BeginNs, long EndNs)>();
        long openNs = beginNs;
        foreach ((long begin, long end) in _standing.Concat(_unusable).OrderBy(s => s.BeginNs))
        {
            if (begin > openNs && openNs < endNs)
            {
                gaps.Add((openNs, Math.Min(begin, endNs)));
            }

            openNs = Math.Max(openNs, end);
        }

        if (openNs < endNs)
        {
            gaps.Add((openNs, endNs));
        }

        List<(long BeginNs, long EndNs)> lasting = gaps.FindAll(g => g.EndNs - g.BeginNs >= WorthTellingNs);
        return lasting.Count > 0 || gaps.Count == 0 ? lasting : [gaps.MaxBy(g => g.EndNs - g.BeginNs)];
    }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // Samples tell nothing of readings.
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // Nor does truth.
    }

    /// <inheritdoc/>
    public void OnAcquisition(in AcquisitionEvent happened)
    {
        bool isOwn = happened.Channel == _channel || (_isJoint && happened.Channel == ChannelName.Ecg);
        int index = _format.IndexOf(happened.Channel);
        if (isOwn && index >= 0 && _kind != MarkKind.HeartRateFusedBpm && happened.Kind.IsUnusable())
        {
            _unusable.Add((_delays[index].BodyNs(happened.BeginNs), _delays[index].BodyNs(happened.EndNs)));
        }
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        TimedMark timed = TimedMark.From(mark, _format);
        long emittedNs = _delays[mark.Channel].BodyNs(timed.EmittedTimeNs);
        if (timed.Kind == _kind && timed.Channel == _channel)
        {
            _standing.Add((emittedNs, emittedNs + ValidNs));
        }
        else if (_standing.Count > 0 && IsGateOfIt(timed))
        {
            (long begin, long end) = _standing[^1];
            _standing[^1] = (begin, Math.Max(begin, Math.Min(end, emittedNs)));
            Cut(emittedNs);
        }
    }

    // Readings overlap: those before the last end at the gate as well.
    private void Cut(long atNs)
    {
        for (int i = _standing.Count - 2; i >= 0 && _standing[i].EndNs > atNs; i--)
        {
            _standing[i] = (_standing[i].BeginNs, Math.Max(_standing[i].BeginNs, atNs));
        }
    }

    private bool IsGateOfIt(in TimedMark mark) => _kind != MarkKind.HeartRateFusedBpm && mark.Kind switch
    {
        MarkKind.JointGateShut => _isJoint,
        MarkKind.GateShut => !_isJoint && (mark.Channel == _channel || (IsOximeter(mark.Channel) && IsOximeter(_channel))),
        _ => false,
    };

    private static bool IsOximeter(ChannelName channel) => channel is ChannelName.Red or ChannelName.Infrared;
}
