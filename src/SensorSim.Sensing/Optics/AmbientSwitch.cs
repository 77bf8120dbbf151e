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

    // More edges than can be under way at once: 30 s of candidates.
    private const int Capacity = 64;

    private readonly EvenCandidates _candidates;
    private readonly double _perSecond;
    private readonly double _rampSeconds;
    private readonly double[] _edges = new double[Capacity];
    private long _candidate = FirstCandidate;
    private double _candidateSeconds;
    private int _firstEdge;
    private int _edgeCount;
    private bool _settled;
    private bool _state;

    /// <summary>Creates a telegraph.</summary>
    /// <param name="random">Its own source.</param>
    /// <param name="perMin">Mean number of changes in a minute, at most 60.</param>
    /// <param name="rampSeconds">Length of an edge [s], at most 30.</param>
    public AmbientSwitch(KeyedRandom random, double perMin, double rampSeconds)
    {
        _candidates = new EvenCandidates(random, 1 / PerSecond);

        // Every second kept one changes nothing.
        _perSecond = perMin * 2 / 60;
        _rampSeconds = rampSeconds;
        _state = IsOne(FirstCandidate);
        _settled = _state;
        Draw(FirstCandidate + 1);
    }

    private AmbientSwitch(AmbientSwitch other)
    {
        _candidates = other._candidates;
        _perSecond = other._perSecond;
        _rampSeconds = other._rampSeconds;
        other._edges.CopyTo(_edges, 0);
        _candidate = other._candidate;
        _candidateSeconds = other._candidateSeconds;
        _firstEdge = other._firstEdge;
        _edgeCount = other._edgeCount;
        _settled = other._settled;
        _state = other._state;
    }

    /// <summary>The value at a time, 0 to 1.</summary>
    /// <param name="seconds">Body time [s]; never before that of the last call.</param>
    public double At(double seconds)
    {
        while (_candidateSeconds <= seconds)
        {
            TakeCandidate();
        }

        while (_edgeCount > 0 && seconds - _edges[_firstEdge] >= _rampSeconds)
        {
            _firstEdge = (_firstEdge + 1) % Capacity;
            _edgeCount--;
            _settled = !_settled;
        }

        double value = _settled ? 1 : 0;
        double rises = _settled ? -1 : 1;
        for (int i = 0; i < _edgeCount; i++)
        {
            double x = (seconds - _edges[(_firstEdge + i) % Capacity]) / _rampSeconds;
            value += rises * (x * x * (3 - (2 * x)));
            rises = -rises;
        }

        return value;
    }

    /// <summary>Whether the value stays what it is at a time from there up to another time, and what it is.</summary>
    /// <param name="beginSeconds">Body time [s]; never before that of the last call.</param>
    /// <param name="endSeconds">Body time [s].</param>
    /// <param name="value">Receives the value at the first time.</param>
    public bool IsSteady(double beginSeconds, double endSeconds, out double value)
    {
        value = At(beginSeconds);
        while (_edgeCount == 0 && _candidateSeconds <= endSeconds && !Changes(_candidate))
        {
            TakeCandidate();
        }

        return _edgeCount == 0 && _candidateSeconds > endSeconds;
    }

    /// <summary>Fills the values at samples of a grid.</summary>
    /// <param name="values">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample, after that of the last call.</param>
    public void Fill(Span<double> values, in SampleGrid grid, long firstIndex)
    {
        for (int done = 0; done < values.Length;)
        {
            if (_edgeCount > 0)
            {
                values[done] = At(grid.Seconds(firstIndex + done));
                done++;
                continue;
            }

            // Nothing changes before the next candidate.
            int end = (int)Math.Min(values.Length, Math.Max(done, grid.FirstAtOrAfter(_candidateSeconds) - firstIndex));
            values[done..end].Fill(_settled ? 1 : 0);
            done = end;
            if (done < values.Length)
            {
                TakeCandidate();
            }
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientSwitch Copy() => new(this);

    private void TakeCandidate()
    {
        if (Changes(_candidate))
        {
            _state = !_state;

            // An edge that ended before anybody asked is over.
            if (_edgeCount == Capacity)
            {
                _firstEdge = (_firstEdge + 1) % Capacity;
                _edgeCount--;
                _settled = !_settled;
            }

            _edges[(_firstEdge + _edgeCount) % Capacity] = _candidateSeconds;
            _edgeCount++;
        }

        Draw(_candidate + 1);
    }

    private void Draw(long candidate)
    {
        _candidate = candidate;
        _candidateSeconds = _candidates.Seconds(candidate);
    }

    private bool Changes(long candidate) => _candidates.IsEvent(candidate, _perSecond) && IsOne(candidate) != _state;

    private bool IsOne(long candidate) => _candidates.Uniform(candidate, 0) < 0.5;
}
