// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Readings;

/// <summary>Scores readings; every time it is given has the delay of its channel already taken off.</summary>
internal sealed class ReadingScorer
{
    private const int ChannelCount = 8;
    private const int BeatCapacity = 512;
    private const int PendingCapacity = 1024;

    // How often usable time is counted [ns]: seldom, for it costs some searches.
    private const long CountingStepNs = 10_000_000_000;

    private readonly ChannelTruth _truth = new(BeatCapacity);
    private readonly ReadingTally?[] _tallies = new ReadingTally?[ReadingGate.Kinds.Count * ChannelCount];
    private readonly EventRing<TimedMark> _pending = new(PendingCapacity);
    private readonly ReadingReference _reference;
    private readonly UsableTable _usable;
    private readonly Func<ChannelName, ScoredSpan?> _spanOf;
    private long _countedUpToNs = long.MinValue;
    private bool _isReserved;

    public ReadingScorer(long windowNs, Func<ChannelName, ScoredSpan?> spanOf)
    {
        _reference = new ReadingReference(_truth, windowNs);
        _spanOf = spanOf;
        _usable = new UsableTable(spanOf);
    }

    /// <summary>Readings that had to be judged before their truth was certain to be complete.</summary>
    public long EarlyClosingCount { get; private set; }

    /// <summary>Told of each wrong reading once it is judged.</summary>
    public Action<TimedMark>? WrongReading { get; set; }

    /// <summary>Told of each reading once it is judged.</summary>
    public Action<JudgedReading>? Judged { get; set; }

    public IEnumerable<ReadingTally> Tallies => _tallies.OfType<ReadingTally>();

    /// <summary>Makes room for the truth and the readings of a channel before the first of them comes.</summary>
    public void Prepare(ChannelName channel, bool isEcg)
    {
        _truth.Prepare(channel, isEcg);
        _ = TallyOf(isEcg ? MarkKind.HeartRateBpm : MarkKind.ArrivalTimeMs, channel);
    }

    /// <summary>Takes all the room that truth and tallies will ever need: of those to come with their first reading.</summary>
    public void Reserve()
    {
        _isReserved = true;
        _truth.Reserve();
        foreach (ReadingTally? tally in _tallies)
        {
            tally?.Reserve();
        }
    }

    public void AddTruth(in TruthEvent truth) => _truth.Add(truth);

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

    /// <summary>A gate shuts: readings that go through it stand no longer.</summary>
    /// <param name="channel">Channel of the gate; of the joint gate any.</param>
    /// <param name="isJoint">Whether it is the gate of readings that need the ECG and a pulse.</param>
    /// <param name="timeNs">When it was told, body time [ns].</param>
    public void Shut(ChannelName channel, bool isJoint, long timeNs)
    {
        foreach (ReadingTally? tally in _tallies)
        {
            // What is made of whichever signals are steady has no gate of its own.
            if (tally is not null && tally.Kind != MarkKind.HeartRateFusedBpm && ReadingGate.IsJoint(tally.Kind) == isJoint
                && (isJoint || IsOneGate(tally.Channel, channel)))
            {
                tally.Coverage.Shut(timeNs);
            }
        }
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

        if (horizonNs >= _countedUpToNs + CountingStepNs || horizonNs == long.MaxValue)
        {
            _countedUpToNs = horizonNs;
            _usable.Count(horizonNs);
            foreach (ReadingTally? tally in _tallies)
            {
                tally?.Coverage.Count(horizonNs);
            }
        }
    }

    private static bool IsOneGate(ChannelName one, ChannelName other) =>
        one == other || (one is ChannelName.Red or ChannelName.Infrared && other is ChannelName.Red or ChannelName.Infrared);

    private void Judge(in TimedMark mark)
    {
        double truth = double.NaN;
        ReferenceState state = double.IsFinite(mark.Value) ? _reference.Find(mark, out truth) : ReferenceState.CannotSay;
        Place place = PlaceOf(mark);
        bool isWrong = TallyOf(mark.Kind, mark.Channel).Add(mark, place, state, truth);
        Judged?.Invoke(new JudgedReading(mark, place, state == ReferenceState.Known ? truth : null, isWrong));
        if (isWrong)
        {
            WrongReading?.Invoke(mark);
        }
    }

    // A reading stands where its own time does; one made from a beat of another channel is unusable also where that beat is, and one made
    // from whichever signals are steady only where all of them are unusable.
    private Place PlaceOf(in TimedMark mark)
    {
        Place place = _spanOf(mark.Channel)?.PlaceOf(mark.TimeNs) ?? Place.Outside;
        if (mark.Kind == MarkKind.HeartRateFusedBpm)
        {
            return place == Place.Unusable && _usable.Fused.IsUsable(mark.TimeNs) ? Place.Scored : place;
        }

        return place == Place.Scored && mark.PairedTimeNs is long paired && _spanOf(mark.PairedChannel)?.PlaceOf(paired) == Place.Unusable
            ? Place.Unusable
            : place;
    }

    private ReadingTally TallyOf(MarkKind kind, ChannelName channel)
    {
        int index = (ReadingGate.IndexOf(kind) * ChannelCount) + (int)channel;
        return _tallies[index] ?? Create(index, kind, channel);
    }

    private ReadingTally Create(int index, MarkKind kind, ChannelName channel)
    {
        var tally = new ReadingTally(channel, kind, _usable.Of(kind, channel));
        _tallies[index] = tally;
        if (_isReserved)
        {
            tally.Reserve();
        }

        return tally;
    }
}
