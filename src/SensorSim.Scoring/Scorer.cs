// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Readings;
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Rhythm;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>Scores a detector's answers against truth while both come in, in constant memory.</summary>
/// <remarks>
/// <para>Everything is compared in body time: truth is in body time already, and of a detection's nominal device time the
/// declared delay of its channel is taken off, and what its clock adds. So timing errors are the detector's own. Values of readings
/// stay as they are: an arrival time between two devices contains the error of their synchronisation.</para>
/// <para>Lead-in, last second and windows count in body time too. A channel is scored only where its record has samples: after the
/// lead-in and before the last second of its own device time as well.</para>
/// <para>Call <see cref="AddTruth"/> and <see cref="AddMark(in Mark)"/> in any interleaving, roughly ascending; now and then
/// <see cref="AdvanceTo"/>; at the end <see cref="Finish"/>. After the first event of each row nothing is allocated.</para>
/// </remarks>
public sealed class Scorer
{
    // Of a stream without an end; leaves room to compute with.
    private const long LongestNs = long.MaxValue / 4;

    // By then the longest lead-in is over. A run that lasts longer takes all room at once; of shorter ones studies make thousands, which need little.
    private const long WarmUpNs = 300_000_000_000;

    private readonly DeviceTimes? _times;
    private readonly ScoringOptions _options;
    private readonly RowTable _rows;
    private readonly ReadingScorer _readings;
    private readonly ScoredSpan?[] _spans = new ScoredSpan?[RowTable.ChannelCount];
    private readonly ChannelDelay[] _delays = new ChannelDelay[RowTable.ChannelCount];
    private readonly Shutdowns?[] _shutdowns = new Shutdowns?[RowTable.ChannelCount];
    private readonly ChannelDelay[] _channels;
    private readonly RhythmScorer? _rhythm;
    private readonly long _leadInNs;
    private long _endNs;
    private long _foreignTruth;
    private long _unscoredMarks;
    private bool _isReserved;

    /// <summary>Creates a scorer for a stream whose clocks are known.</summary>
    /// <param name="stream">The stream; one without an end is ended by <see cref="EndAt"/>.</param>
    /// <param name="options">How to score; null for the defaults.</param>
    public Scorer(IAcquiredStream stream, ScoringOptions? options = null)
        : this(Delays(stream), stream.EndTick == long.MaxValue ? LongestNs : stream.Format.Clock.Nanoseconds(stream.EndTick), options) => _times = new DeviceTimes(stream.Format);

    /// <summary>Creates a scorer for a stream whose clocks show body time.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="durationNs">Length of the record [ns], above 0.</param>
    /// <param name="options">How to score; null for the defaults.</param>
    public Scorer(StreamFormat format, long durationNs, ScoringOptions? options = null)
        : this(Delays(format), durationNs, options) => _times = new DeviceTimes(format);

    /// <summary>Creates a scorer for answers that come from a file, with times instead of sample positions.</summary>
    /// <param name="channels">The channels of the record, each once.</param>
    /// <param name="durationNs">Length of the record [ns], above 0.</param>
    /// <param name="options">How to score; null for the defaults.</param>
    public Scorer(IEnumerable<ChannelDelay> channels, long durationNs, ScoringOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(channels);
        ArgumentOutOfRangeException.ThrowIfLessThan(durationNs, 1);
        _options = options ?? new ScoringOptions();
        _options.Validate();
        _leadInNs = _options.LeadInNs ?? ScoredSpan.DefaultLeadInNs(durationNs);
        _endNs = durationNs - _options.TailNs;
        _channels = [.. channels];
        foreach (ChannelDelay channel in _channels)
        {
            _spans[(int)channel.Channel] = new ScoredSpan(
                Math.Max(_leadInNs, channel.BodyNs(_leadInNs)), Math.Min(_endNs, channel.BodyNs(durationNs) - _options.TailNs));
            _delays[(int)channel.Channel] = channel;
            _shutdowns[(int)channel.Channel] = new Shutdowns(_spans[(int)channel.Channel]!);
        }

        _rows = new RowTable(_spans, _shutdowns, _options);
        _readings = new ReadingScorer(_options.WindowNs, channel => _spans[(int)channel]);
        _rhythm = _spans[(int)ChannelName.Ecg] is ScoredSpan ecg ? new RhythmScorer(new UsableTime([ecg], isAnyEnough: false)) : null;
        foreach (ExpectedRow row in _rows.Expected)
        {
            _readings.Prepare(row.Channel, row.Channel == ChannelName.Ecg);
        }
    }

    /// <summary>Told of each wrong reading once it is judged, its times in body time; null to tell nobody.</summary>
    public Action<TimedMark>? WrongReading
    {
        get => _readings.WrongReading;
        set => _readings.WrongReading = value;
    }

    /// <summary>Told of each reading once it is judged, its times in body time; null to tell nobody.</summary>
    public Action<JudgedReading>? ReadingJudged
    {
        get => _readings.Judged;
        set => _readings.Judged = value;
    }

    /// <summary>Told of each event once it is judged; null to tell nobody.</summary>
    public Action<JudgedEvent>? EventJudged
    {
        get => _rows.Judged;
        set => _rows.Judged = value;
    }

    /// <summary>Whether this scorer takes off what the clocks of a stream add.</summary>
    /// <param name="stream">The stream.</param>
    public bool KnowsClocksOf(IAcquiredStream stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        return stream.Clocks.All(c => _delays[(int)c.Channel] is var known && known.ClockOffsetNs == c.OffsetNs && known.ClockPpm == c.Ppm);
    }

    /// <summary>Marks a stretch of a channel as unusable; before the events inside are closed, so best at once.</summary>
    /// <param name="channel">Channel of the stream; others are ignored.</param>
    /// <param name="beginNs">Begin, device time of the channel [ns].</param>
    /// <param name="endNs">End, not included, device time of the channel [ns].</param>
    public void AddUnusable(ChannelName channel, long beginNs, long endNs)
    {
        ChannelDelay delay = _delays[(int)channel];
        _spans[(int)channel]?.AddUnusable(delay.BodyNs(beginNs), delay.BodyNs(endNs));
    }

    /// <summary>Adds a row of truth.</summary>
    /// <param name="truth">The row; kinds that no row of scores needs are ignored.</param>
    public void AddTruth(in TruthEvent truth)
    {
        if (_spans[(int)truth.Channel] is null)
        {
            _foreignTruth++;
            return;
        }

        _readings.AddTruth(truth);
        if (RowTable.IsScoredEvent(truth.Kind))
        {
            _rows.Get(truth.Channel, truth.Kind).AddTruth(truth.TimeNs, truth.Flags, truth.Label);
        }

        if (truth.Kind == MarkKind.RPeak && truth.Channel == ChannelName.Ecg)
        {
            _rhythm?.AddBeat(truth.TimeNs, truth.Label);
        }
    }

    /// <summary>Adds an answer of the detector.</summary>
    /// <param name="mark">The mark; its channels exist in the format.</param>
    /// <exception cref="InvalidOperationException">The scorer was made without a stream format.</exception>
    public void AddMark(in Mark mark)
    {
        if (_times is null)
        {
            throw new InvalidOperationException("Sample positions need a stream format; this scorer takes times only.");
        }

        AddMark(_times.Of(mark));
    }

    /// <summary>Adds an answer of the detector.</summary>
    /// <param name="mark">The answer in device time.</param>
    public void AddMark(in TimedMark mark)
    {
        if (_spans[(int)mark.Channel] is null)
        {
            _unscoredMarks++;
            return;
        }

        ChannelDelay delay = _delays[(int)mark.Channel];
        if (RowTable.IsScoredEvent(mark.Kind))
        {
            _rows.Get(mark.Channel, mark.Kind).AddDetection(delay.BodyNs(mark.TimeNs), mark.EmittedTimeNs - mark.TimeNs);
        }
        else if (ReadingGate.IndexOf(mark.Kind) >= 0)
        {
            _readings.AddReading(mark with
            {
                TimeNs = delay.BodyNs(mark.TimeNs),
                WindowBeginNs = mark.WindowBeginNs is long begin ? delay.BodyNs(begin) : null,
                EmittedTimeNs = delay.BodyNs(mark.EmittedTimeNs),
                PairedTimeNs = mark.PairedTimeNs is long paired ? _delays[(int)mark.PairedChannel].BodyNs(paired) : null,
            });
        }
        else
        {
            _unscoredMarks++;
            AddState(mark, delay);
        }
    }

    /// <summary>States that every channel has been read up to a nominal device time; then as <see cref="AdvanceTo"/>.</summary>
    /// <param name="deviceNs">Nominal device time [ns].</param>
    public void AdvanceToDeviceTime(long deviceNs)
    {
        AdvanceTo(EarliestBodyNs(deviceNs));
    }

    /// <summary>Body time that every channel has reached at a nominal device time [ns]: that of the clock that lags most.</summary>
    /// <param name="deviceNs">Nominal device time [ns].</param>
    internal long EarliestBodyNs(long deviceNs)
    {
        long timeNs = deviceNs;
        foreach (ChannelDelay channel in _channels)
        {
            timeNs = Math.Min(timeNs, channel.BodyNs(deviceNs));
        }

        return timeNs;
    }

    /// <summary>States that nothing older than a time minus the holding time will be fed any more.</summary>
    /// <param name="timeNs">Body time [ns] up to which every channel is known.</param>
    public void AdvanceTo(long timeNs)
    {
        if (!_isReserved && timeNs >= WarmUpNs)
        {
            Reserve();
        }

        _rows.AdvanceTo(timeNs);
        _readings.CloseUpTo(timeNs - _options.HoldingNs);
        _rhythm?.CloseUpTo(timeNs - _options.HoldingNs);
        foreach (ScoredSpan? span in _spans)
        {
            // Open events are at most as old as this but for late ones, which a minute covers.
            span?.AllowForgettingBefore(timeNs - _options.HoldingNs - 60_000_000_000);
        }
    }

    /// <summary>The record turned out shorter than it was said to be; call it before <see cref="Finish"/>, within the holding time of the new end.</summary>
    /// <param name="durationNs">Its length [ns]; one that is not shorter changes nothing.</param>
    public void EndAt(long durationNs)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(durationNs);
        _endNs = Math.Min(_endNs, durationNs - _options.TailNs);
        foreach (ChannelDelay channel in _channels)
        {
            _spans[(int)channel.Channel]!.EndAt(Math.Min(_endNs, channel.BodyNs(durationNs) - _options.TailNs));
        }
    }

    /// <summary>Closes everything and gives the scores.</summary>
    /// <returns>The scores; asking again gives the same.</returns>
    public ScoreReport Finish()
    {
        _rows.Finish();
        _readings.CloseUpTo(long.MaxValue);
        _rhythm?.CloseUpTo(long.MaxValue);
        return new ScoreReport
        {
            Scores = _rows.Scores(_delays),
            Readings = [.. _readings.Tallies
                .Where(t => t.FirstEmittedNs is not null)
                .OrderBy(t => t.Channel)
                .ThenBy(t => t.Kind)
                .Select(t => new ReadingScore(t))],
            Rhythm = _rhythm is { HasAnything: true } ? new RhythmScore(_rhythm) : null,
            ScoredBeginNs = _leadInNs,
            ScoredEndNs = Math.Max(_leadInNs, _endNs),
            WindowNs = _options.WindowNs,
            EarlyClosingCount = _rows.EarlyClosingCount + _readings.EarlyClosingCount + (_rhythm?.EarlyClosingCount ?? 0),
            LateCount = _rows.LateCount,
            SpanOverflowCount = _spans.Sum(s => s?.OverflowCount ?? 0),
            ForeignTruthCount = _foreignTruth,
            UnscoredMarkCount = _unscoredMarks,
        };
    }

    /// <summary>Body time of an answer [ns].</summary>
    internal long BodyNs(ChannelName channel, long deviceNs) => _delays[(int)channel].BodyNs(deviceNs);

    // What comes later allocates nothing, however rare it is: a row's first large error, a lost contact.
    private void Reserve()
    {
        _isReserved = true;
        _rows.Reserve();
        _readings.Reserve();
        foreach (ScoredSpan? span in _spans)
        {
            span?.Reserve();
        }
    }

    // What holds from a mark on: gates and the flag of rhythm. A gate acts on readings from when it was told, on the detector's duty from its own time.
    private void AddState(in TimedMark mark, in ChannelDelay delay)
    {
        long emittedNs = delay.BodyNs(mark.EmittedTimeNs);
        switch (mark.Kind)
        {
            case MarkKind.GateShut:
                _readings.Shut(mark.Channel, isJoint: false, emittedNs);
                _shutdowns[(int)mark.Channel]!.Shut(delay.BodyNs(mark.TimeNs));
                break;
            case MarkKind.JointGateShut:
                _readings.Shut(mark.Channel, isJoint: true, emittedNs);
                break;
            case MarkKind.GateOpen:
                _shutdowns[(int)mark.Channel]!.Open(delay.BodyNs(mark.TimeNs));
                break;
            case MarkKind.IrregularRhythm or MarkKind.RegularRhythm:
                _rhythm?.AddFlag(mark.Kind == MarkKind.IrregularRhythm, Math.Max(emittedNs, delay.BodyNs(mark.TimeNs)));
                break;
            default:
                break;
        }
    }

    private static IEnumerable<ChannelDelay> Delays(IAcquiredStream stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        return stream.Format.Channels.Zip(stream.Clocks, (c, clock) => new ChannelDelay(c.Name, c.DeclaredDelayNs, clock.OffsetNs, clock.Ppm));
    }

    private static IEnumerable<ChannelDelay> Delays(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.Channels.Select(c => new ChannelDelay(c.Name, c.DeclaredDelayNs));
    }
}
