// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Readings;

/// <summary>Scores heart rates and arrival times; every time it is given has the delay of its channel already taken off.</summary>
internal sealed class ReadingScorer
{
    private const int ChannelCount = 8;
    private const int BeatCapacity = 512;
    private const int PendingCapacity = 512;
    private readonly TruthBeats _beats = new(BeatCapacity);
    private readonly BeatValues?[] _arrivals = new BeatValues?[ChannelCount];
    private readonly ReadingTally?[] _rates = new ReadingTally?[ChannelCount];
    private readonly ReadingTally?[] _arrivalTallies = new ReadingTally?[ChannelCount];
    private readonly EventRing<TimedMark> _pending = new(PendingCapacity);
    private readonly ReadingReference _reference;
    private readonly Func<ChannelName, ScoredSpan?> _spanOf;

    public ReadingScorer(long windowNs, Func<ChannelName, ScoredSpan?> spanOf)
    {
        _reference = new ReadingReference(_beats, windowNs);
        _spanOf = spanOf;
    }

    /// <summary>Readings that had to be judged before their truth was certain to be complete.</summary>
    public long EarlyClosingCount { get; private set; }

    public IEnumerable<ReadingTally> Tallies => _rates.Concat(_arrivalTallies).OfType<ReadingTally>();

    /// <summary>Makes room for the truth and the readings of a channel before the first of them comes.</summary>
    public void Prepare(ChannelName channel, bool isEcg)
    {
        _arrivals[(int)channel] ??= new BeatValues(BeatCapacity);
        _ = TallyOf(isEcg ? MarkKind.HeartRateBpm : MarkKind.ArrivalTimeMs, channel);
    }

    public void AddTruth(in TruthEvent truth)
    {
        if (truth.Kind == MarkKind.RPeak && truth.Channel == ChannelName.Ecg)
        {
            _beats.Add(truth.TimeNs, truth.BeatId, truth.Flags);
        }
        else if (truth.Kind == MarkKind.PatMs && double.IsFinite(truth.Value))
        {
            (_arrivals[(int)truth.Channel] ??= new BeatValues(BeatCapacity)).Add(truth.BeatId, truth.Value);
        }
    }

    public void AddReading(in TimedMark mark)
    {
        TallyOf(mark.Kind, mark.Channel).NoteComing(mark);
        if (_pending.Count == _pending.Capacity)
        {
            EarlyClosingCount++;
            _pending.TryTake(out TimedMark oldest);
            Judge(oldest);
        }

        _pending.Add(mark);
    }

    /// <summary>Judges every reading whose truth is complete.</summary>
    /// <param name="horizonNs">No truth older than this is still to come [ns].</param>
    public void CloseUpTo(long horizonNs)
    {
        while (_pending.Count > 0 && _pending[0].TimeNs < horizonNs - ReadingReference.MarginNs)
        {
            _pending.TryTake(out TimedMark mark);
            Judge(mark);
        }
    }

    private void Judge(in TimedMark mark)
    {
        double truth = double.NaN;
        ReferenceState state = !double.IsFinite(mark.Value)
            ? ReferenceState.CannotSay
            : mark.Kind == MarkKind.HeartRateBpm
                ? _reference.HeartRateBpm(mark, out truth)
                : _reference.ArrivalMs(mark, _arrivals[(int)mark.Channel], _arrivals[(int)ChannelName.Ecg], out truth);
        TallyOf(mark.Kind, mark.Channel).Add(mark, PlaceOf(mark), state, truth);
    }

    // A reading stands where its own time does; one made from a beat of another channel is unusable also where that beat is.
    private Place PlaceOf(in TimedMark mark)
    {
        Place place = _spanOf(mark.Channel)?.PlaceOf(mark.TimeNs) ?? Place.Outside;
        return place == Place.Scored && mark.PairedTimeNs is long paired && _spanOf(mark.PairedChannel)?.PlaceOf(paired) == Place.Unusable
            ? Place.Unusable
            : place;
    }

    private ReadingTally TallyOf(MarkKind kind, ChannelName channel)
    {
        ReadingTally?[] tallies = kind == MarkKind.HeartRateBpm ? _rates : _arrivalTallies;
        return tallies[(int)channel] ??= new ReadingTally(channel, kind);
    }
}
