// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Times at which something begins, thinned from one candidate in each second.</summary>
/// <remarks>A higher rate adds times and moves none. No state: the same for every cut.</remarks>
internal readonly struct RareTimes
{
    private readonly KeyedRandom _random;
    private readonly double _keep;

    /// <summary>Creates the times.</summary>
    /// <param name="random">Their own source; second c has the draws 2 c (kept or not) and 2 c + 1 (place).</param>
    /// <param name="perSecond">How many in a second, 0 to 1 [1/s].</param>
    public RareTimes(KeyedRandom random, double perSecond)
    {
        _random = random;
        _keep = perSecond;
    }

    /// <summary>Whether something begins in a second.</summary>
    /// <param name="second">Number of the second, from 0.</param>
    /// <param name="seconds">Receives when [s].</param>
    public bool IsKept(long second, out double seconds)
    {
        bool isKept = _random.Uniform(2 * second) < _keep;
        seconds = isKept ? second + _random.Uniform((2 * second) + 1) : 0;
        return isKept;
    }
}
