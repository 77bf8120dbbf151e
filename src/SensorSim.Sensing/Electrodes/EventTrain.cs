// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Random events, thinned from candidates of a fixed rate: one candidate somewhere in each equal stretch of time.</summary>
/// <remarks>
/// A candidate counts when its own draw lies below rate / candidate rate. So a higher rate adds events and moves none. Up to the
/// candidate rate the mean rate is exact; events come somewhat more evenly than a Poisson process when the rate is close to it.
/// </remarks>
internal struct EventTrain
{
    private const int DrawsEach = 4;

    private readonly KeyedRandom _random;
    private readonly SampleGrid _grid;
    private readonly double _stretchSeconds;
    private long _candidate;

    /// <summary>Creates a train.</summary>
    /// <param name="random">Its own source; candidate k uses draws 4k to 4k + 3.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="candidatesPerSecond">Candidate rate [1/s].</param>
    /// <param name="fromSeconds">No candidate whose stretch begins before this counts [s].</param>
    public EventTrain(KeyedRandom random, SampleGrid grid, double candidatesPerSecond, double fromSeconds)
    {
        _random = random;
        _grid = grid;
        _stretchSeconds = 1 / candidatesPerSecond;
        _candidate = (long)Math.Ceiling(fromSeconds / _stretchSeconds);
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
    public readonly bool IsEvent(double perSecond) => _random.Uniform((DrawsEach * _candidate) + 1) < perSecond * _stretchSeconds;

    /// <summary>The candidate's own standard normal number.</summary>
    public readonly double Normal() => _random.Normal((DrawsEach * _candidate) + 2);

    /// <summary>The candidate's own number from (0, 1).</summary>
    public readonly double Uniform() => _random.Uniform((DrawsEach * _candidate) + 3);

    /// <summary>Goes on to the next candidate.</summary>
    public void Next()
    {
        _candidate++;
        Find();
    }

    private void Find()
    {
        Seconds = (_candidate + _random.Uniform(DrawsEach * _candidate)) * _stretchSeconds;
        Sample = Math.Max(0, _grid.FirstAtOrAfter(Seconds));
    }
}
