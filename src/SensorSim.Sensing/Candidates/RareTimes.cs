// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Times at which something begins, thinned from one candidate in each second.</summary>
/// <remarks>A higher rate adds times and moves none. The same for every cut and order; copied by value.</remarks>
internal struct RareTimes
{
    private readonly EvenCandidates _candidates;
    private KeptCandidates _kept;

    /// <summary>Creates the times.</summary>
    /// <param name="random">Their own source.</param>
    /// <param name="perSecond">How many in a second, 0 to 1 [1/s].</param>
    public RareTimes(KeyedRandom random, double perSecond)
    {
        _candidates = new EvenCandidates(random, 1);
        _kept = new KeptCandidates(random, EvenCandidates.EventDraw, perSecond);
    }

    /// <summary>The first second of a range in which something begins.</summary>
    /// <param name="from">First second of the range, from 0.</param>
    /// <param name="until">First second after the range.</param>
    /// <returns>Its number, or <paramref name="until"/> when there is none.</returns>
    public long Next(long from, long until) => _kept.Next(from, until);

    /// <summary>The first second in which something begins, as far as one look goes.</summary>
    /// <param name="from">First second that counts, from 0.</param>
    /// <param name="isFound">Receives whether there is one.</param>
    /// <returns>Its number; if there is none, that of a later second before which nothing begins.</returns>
    public long NextKnown(long from, out bool isFound) => _kept.NextKnown(from, out isFound);

    /// <summary>When it begins [s].</summary>
    /// <param name="second">A second that was found.</param>
    public readonly double Seconds(long second) => _candidates.Seconds(second);
}
