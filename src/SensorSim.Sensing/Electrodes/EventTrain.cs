// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Random events one after the other, thinned from <see cref="EvenCandidates"/>, with the samples at which they show.</summary>
internal struct EventTrain
{
    private readonly EvenCandidates _candidates;
    private readonly SampleGrid _grid;
    private long _candidate;

    /// <summary>Creates a train.</summary>
    /// <param name="random">Its own source; candidate k uses draws 4k to 4k + 3.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="candidatesPerSecond">Candidate rate [1/s].</param>
    /// <param name="fromSeconds">No candidate whose stretch begins before this counts [s].</param>
    public EventTrain(KeyedRandom random, SampleGrid grid, double candidatesPerSecond, double fromSeconds)
    {
        _candidates = new EvenCandidates(random, 1 / candidatesPerSecond);
        _grid = grid;
        _candidate = _candidates.From(fromSeconds);
        Seconds = 0;
        Sample = 0;
        Find();
    }

    /// <summary>Time of the next candidate [s].</summary>
    public double Seconds { get; private set; }

    /// <summary>First sample at or after it, at least 0.</summary>
    public long Sample { get; private set; }

    /// <summary>Whether the candidate is an event.</summary>
    /// <param name="perSecond">Rate of events [1/s].</param>
    public readonly bool IsEvent(double perSecond) => _candidates.IsEvent(_candidate, perSecond);

    /// <summary>The candidate's own standard normal number.</summary>
    public readonly double Normal() => _candidates.Normal(_candidate);

    /// <summary>The candidate's own number from (0, 1).</summary>
    public readonly double Uniform() => _candidates.Uniform(_candidate, 1);

    /// <summary>Goes on to the next candidate.</summary>
    public void Next()
    {
        _candidate++;
        Find();
    }

    private void Find()
    {
        Seconds = _candidates.Seconds(_candidate);
        Sample = Math.Max(0, _grid.FirstAtOrAfter(Seconds));
    }
}
