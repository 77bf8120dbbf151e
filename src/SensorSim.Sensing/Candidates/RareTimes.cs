// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Times at which something begins, thinned from one candidate in each second.</summary>
/// <remarks>A higher rate adds times and moves none. No state: the same for every cut.</remarks>
internal readonly struct RareTimes
{
    private readonly EvenCandidates _candidates;
    private readonly double _perSecond;

    /// <summary>Creates the times.</summary>
    /// <param name="random">Their own source.</param>
    /// <param name="perSecond">How many in a second, 0 to 1 [1/s].</param>
    public RareTimes(KeyedRandom random, double perSecond)
    {
        _candidates = new EvenCandidates(random, 1);
        _perSecond = perSecond;
    }

    /// <summary>Whether something begins in a second.</summary>
    /// <param name="second">Number of the second, from 0.</param>
    /// <param name="seconds">Receives when [s].</param>
    public bool IsKept(long second, out double seconds)
    {
        bool isKept = _candidates.IsEvent(second, _perSecond);
        seconds = isKept ? _candidates.Seconds(second) : 0;
        return isKept;
    }
}
