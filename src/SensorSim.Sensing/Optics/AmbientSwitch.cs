// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>A random telegraph with smooth edges: light that goes between 0 and 1 at keyed instants.</summary>
/// <remarks>
/// <para>One candidate stands at an even place in each half second. It is kept with a probability that the rate sets, and a kept one draws
/// the state after it anew, 0 or 1 evenly: so half of the kept ones change something, and the rate moves none of them. Before the first
/// sample the telegraph has long been running.</para>
/// <para>An edge is 3x² − 2x³ over its length; edges that overlap add up and stay between 0 and 1, since they alternate.</para>
/// </remarks>
internal sealed class AmbientSwitch
{
    /// <summary>Candidates in a second.</summary>
    public const double PerSecond = 2;

    // 100 s before time 0: earlier than any device's clock can reach.
    private const long FirstCandidate = -200;

    // More edges than can be under way, or gone by no longer than is remembered: a minute of candidates.
    private const int Capacity = 128;
    private const double MostRememberedSeconds = 30;

    private readonly EvenCandidates _candidates;
    private readonly double _perSecond;
    private readonly double _rampSeconds;
    private readonly double _rememberedSeconds;
    private readonly double[] _edges = new double[Capacity];
    private KeptCandidates _kept;
    private long _candidate = FirstCandidate + 1;
    private int _firstEdge;
    private int _edgeCount;
    private bool _settled;
    private bool _state;

    /// <summary>Creates a telegraph.</summary>
    /// <param name="random">Its own source.</param>
    /// <param name="perMin">Mean number of changes in a minute, at most 60.</param>
    /// <param name="rampSeconds">Length of an edge [s], at most 30.</param>
    /// <param name="rememberedSeconds">How far before the latest time asked for a time may lie [s], at most 30.</param>
    public AmbientSwitch(KeyedRandom random, double perMin, double rampSeconds, double rememberedSeconds = 0)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(rememberedSeconds, MostRememberedSeconds);
        _candidates = new EvenCandidates(random, 1 / PerSecond);

        // Every second kept one changes nothing.
        _perSecond = perMin * 2 / 60;
        _kept = new KeptCandidates(random, EvenCandidates.EventDraw, _perSecond * (1 / PerSecond));
        _rampSeconds = rampSeconds;
        _rememberedSeconds = rememberedSeconds;
        _state = IsOne(FirstCandidate);
        _settled = _state;
    }

    private AmbientSwitch(AmbientSwitch other)
    {
        _candidates = other._candidates;
        _perSecond = other._perSecond;
        _kept = other._kept;
        _rampSeconds = other._rampSeconds;
        _rememberedSeconds = other._rememberedSeconds;
        other._edges.CopyTo(_edges, 0);
        _candidate = other._candidate;
        _firstEdge = other._firstEdge;
        _edgeCount = other._edgeCount;
        _settled = other._settled;
        _state = other._state;
    }

    /// <summary>The value at a time, 0 to 1.</summary>
    /// <param name="seconds">Body time [s]; before the latest one asked for by no more than is remembered.</param>
    public double At(double seconds)
    {
        TakeUntil(seconds, seconds);
        bool settled = SettledAt(seconds, out int over);
        double value = settled ? 1 : 0;
        double rises = settled ? -1 : 1;
        for (int i = over; i < _edgeCount && Edge(i) <= seconds; i++)
        {
            value += rises * SmoothStep.At((seconds - Edge(i)) / _rampSeconds);
            rises = -rises;
        }

        return value;
    }

    /// <summary>Whether the value stays what it is at a time from there up to another time.</summary>
    /// <param name="beginSeconds">Body time [s]; before the latest one asked for by no more than is remembered.</param>
    /// <param name="endSeconds">Body time [s].</param>
    /// <param name="value">Receives the value at the first time, apart from edges that are under way then: 0 or 1.</param>
    public bool IsSteady(double beginSeconds, double endSeconds, out double value)
    {
        TakeUntil(endSeconds, beginSeconds);
        value = SettledAt(beginSeconds, out int over) ? 1 : 0;
        return over == _edgeCount || Edge(over) > endSeconds;
    }

    /// <summary>Fills the values at samples of a grid.</summary>
    /// <param name="values">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Fill(Span<double> values, in SampleGrid grid, long firstIndex)
    {
        for (int done = 0; done < values.Length; done += LiveLatch.Samples)
        {
            Span<double> part = values.Slice(done, Math.Min(LiveLatch.Samples, values.Length - done));
            double begin = grid.Seconds(firstIndex + done);
            bool isSteady = IsSteady(begin, grid.Seconds(firstIndex + done + part.Length - 1), out double value);
            part.Fill(value);
            if (!isSteady)
            {
                AddEdges(part, grid, firstIndex + done, begin, 1);
            }
        }
    }

    /// <summary>Adds what samples of a grid lie above or below the value that an earlier time has apart from edges under way.</summary>
    /// <param name="values">Element i is that of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="sinceSeconds">The earlier time, as for <see cref="IsSteady"/> [s].</param>
    /// <param name="height">Height of a change from 0 to 1.</param>
    public void AddEdges(Span<double> values, in SampleGrid grid, long firstIndex, double sinceSeconds, double height)
    {
        // As one by one: an edge that is over adds its height, one that is to come nothing.
        double end = grid.Seconds(firstIndex + values.Length - 1);
        TakeUntil(end, sinceSeconds);
        double rises = SettledAt(sinceSeconds, out int over) ? -height : height;
        for (int i = over; i < _edgeCount && Edge(i) <= end; i++)
        {
            SmoothStep.Add(values, grid, firstIndex, Edge(i), _rampSeconds, rises);
            rises = -rises;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientSwitch Copy() => new(this);

    private double Edge(int i) => _edges[(_firstEdge + i) & (Capacity - 1)];

    // The value apart from edges under way; how many of those that are known are over.
    private bool SettledAt(double seconds, out int over)
    {
        bool settled = _settled;
        for (over = 0; over < _edgeCount && seconds - Edge(over) >= _rampSeconds; over++)
        {
            settled = !settled;
        }

        return settled;
    }

    // Candidates of the half second in which a time lies may still be to come: they are edges of the future.
    private void TakeUntil(double seconds, double neededFromSeconds)
    {
        if (_candidate > seconds * PerSecond)
        {
            return;
        }

        long end = (long)Math.Floor(seconds * PerSecond) + 1;
        for (; (_candidate = NextKept(end)) < end; _candidate++)
        {
            if (IsOne(_candidate) != _state)
            {
                _state = !_state;

                // An edge that ended before anybody asked is over.
                if (_edgeCount == Capacity)
                {
                    DropFirst();
                }

                _edges[(_firstEdge + _edgeCount) & (Capacity - 1)] = _candidates.Seconds(_candidate);
                _edgeCount++;
            }
        }

        while (_edgeCount > 0 && neededFromSeconds - _rememberedSeconds - Edge(0) >= _rampSeconds)
        {
            DropFirst();
        }
    }

    private void DropFirst()
    {
        _firstEdge = (_firstEdge + 1) & (Capacity - 1);
        _edgeCount--;
        _settled = !_settled;
    }

    // The next candidate that is kept; those before time 0 are asked one by one.
    private long NextKept(long end)
    {
        long candidate = _candidate;
        while (candidate < Math.Min(0, end) && !_candidates.IsEvent(candidate, _perSecond))
        {
            candidate++;
        }

        return candidate < 0 ? candidate : _kept.Next(candidate, end);
    }

    private bool IsOne(long candidate) => _candidates.Uniform(candidate, 0) < 0.5;
}
