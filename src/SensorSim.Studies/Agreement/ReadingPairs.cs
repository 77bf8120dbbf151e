// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Oxygen;
using SensorSim.Scoring.Pressure;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Agreement;

/// <summary>Readings of one kind with their true values over many runs, in memory that grows with the number of persons only.</summary>
/// <remarks>
/// <para>Figures come from exact sums of each person. For pictures a sample of pairs is kept: those with the smallest drawn number, which hangs on run and
/// place in the run, so the same pairs are kept whatever the order of the runs and however many workers share them.</para>
/// <para>Not for several threads at a time: one for each worker, put together at the end with <see cref="Add(ReadingPairs)"/>.</para>
/// </remarks>
public sealed class ReadingPairs
{
    private readonly SortedDictionary<int, PairSums> _subjects = [];
    private readonly PriorityQueue<ReadingPair, Rank> _points;
    private readonly int _capacity;

    /// <summary>Creates an empty collection.</summary>
    /// <param name="kind">Kind of reading.</param>
    /// <param name="channel">Channel of the readings; null: any.</param>
    /// <param name="pointCapacity">Pairs kept for pictures, 0 to 1,000,000.</param>
    public ReadingPairs(MarkKind kind, ChannelName? channel = null, int pointCapacity = 10_000)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(pointCapacity);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(pointCapacity, 1_000_000);
        Kind = kind;
        Channel = channel;
        _capacity = pointCapacity;

        // The one with the largest number leaves first.
        _points = new PriorityQueue<ReadingPair, Rank>(Comparer<Rank>.Create((a, b) => b.CompareTo(a)));
    }

    /// <summary>Kind of reading.</summary>
    public MarkKind Kind { get; }

    /// <summary>Channel of the readings; null: any.</summary>
    public ChannelName? Channel { get; }

    /// <summary>Pairs added.</summary>
    public long Count { get; private set; }

    /// <summary>Persons with a pair, in order of their indices.</summary>
    public IReadOnlyList<SubjectPairs> Subjects => [.. _subjects.Select(s => new SubjectPairs(s.Key, s.Value))];

    /// <summary>How many are within 5, 10 and 15 of the unit.</summary>
    public PressureBands Bands { get; } = new();

    /// <summary>By bands of the true value; empty unless the kind is a saturation.</summary>
    public SaturationAccuracy Saturation { get; } = new();

    /// <summary>Pairs for a picture, in order of run and place in it: all, or a sample of the capacity.</summary>
    public IReadOnlyList<ReadingPair> Points =>
        [.. _points.UnorderedItems.Select(i => i.Element).OrderBy(p => p.Run).ThenBy(p => p.Index)];

    /// <summary>Pairs that are in the figures and not in <see cref="Points"/>.</summary>
    public long LeftOutCount => Count - _points.Count;

    /// <summary>Collects the scored readings of a run, beside whoever listens already.</summary>
    /// <param name="scorer">Scorer of the run.</param>
    /// <param name="run">Number of the run; each once.</param>
    /// <param name="subject">Index of its person.</param>
    public void Listen(Scorer scorer, long run, int subject)
    {
        ArgumentNullException.ThrowIfNull(scorer);
        long index = 0;
        scorer.ReadingJudged += judged =>
        {
            if (judged.Mark.Kind == Kind && (Channel ?? judged.Mark.Channel) == judged.Mark.Channel && judged.Place == Place.Scored && judged.Truth is double truth)
            {
                Add(new ReadingPair(run, index++, subject, truth, judged.Mark.Value));
            }
        };
    }

    /// <summary>Adds a pair.</summary>
    /// <param name="pair">The pair; each run and index once.</param>
    public void Add(in ReadingPair pair)
    {
        SumsOf(pair.Subject).Add(pair.Truth, pair.Estimate);
        Count++;
        Bands.Add(pair.Estimate - pair.Truth);
        if (Kind == MarkKind.Spo2Percent)
        {
            Saturation.Add(pair.Truth, pair.Estimate);
        }

        Keep(pair);
    }

    /// <summary>Adds the pairs of another collection, of other runs.</summary>
    /// <param name="other">The collection; of the same kind and channel; unchanged.</param>
    /// <exception cref="ArgumentException">It is of another kind or channel.</exception>
    public void Add(ReadingPairs other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.Kind != Kind || other.Channel != Channel)
        {
            throw new ArgumentException("Pairs of one kind and channel only.", nameof(other));
        }

        foreach ((int subject, PairSums sums) in other._subjects)
        {
            SumsOf(subject).Add(sums);
        }

        Count += other.Count;
        Bands.Add(other.Bands);
        Saturation.Add(other.Saturation);
        foreach ((ReadingPair pair, Rank _) in other._points.UnorderedItems)
        {
            Keep(pair);
        }
    }

    private PairSums SumsOf(int subject)
    {
        if (!_subjects.TryGetValue(subject, out PairSums? sums))
        {
            _subjects[subject] = sums = new PairSums();
        }

        return sums;
    }

    private void Keep(in ReadingPair pair)
    {
        if (_capacity == 0)
        {
            return;
        }

        ulong seed = unchecked((ulong)pair.Run);
        var rank = new Rank(new KeyedRandom(seed, "studies.reading_pairs").Word(pair.Index), pair.Run, pair.Index);
        if (_points.Count < _capacity)
        {
            _points.Enqueue(pair, rank);
        }
        else
        {
            _points.EnqueueDequeue(pair, rank);
        }
    }

    // Smaller is kept; run and index make it strict.
    private readonly record struct Rank(uint Draw, long Run, long Index) : IComparable<Rank>
    {
        public int CompareTo(Rank other) => (Draw, Run, Index).CompareTo((other.Draw, other.Run, other.Index));
    }
}
