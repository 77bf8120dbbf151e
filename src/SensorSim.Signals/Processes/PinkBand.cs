// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Processes;

/// <summary>A random fluctuation whose power spectrum falls as one over the frequency inside a band; a closed form in time.</summary>
/// <remarks>
/// Twenty sines of equal power, one drawn log-uniformly from each of twenty equal parts of the band on a logarithmic scale: equal power
/// in every octave. The variance is that of the sines, exact over times long against the slowest.
/// </remarks>
public sealed class PinkBand
{
    private const int Count = 20;
    private readonly double _amplitude;
    private readonly double[] _hz = new double[Count];
    private readonly double[] _startTurns = new double[Count];

    /// <summary>Creates a fluctuation.</summary>
    /// <param name="random">Its own source; draws 0 to 39 are used.</param>
    /// <param name="lowestHz">Lower end of the band [Hz], above 0.</param>
    /// <param name="highestHz">Upper end of the band [Hz], above the lower.</param>
    /// <param name="standardDeviation">Standard deviation of the fluctuation [its unit], at least 0.</param>
    public PinkBand(KeyedRandom random, double lowestHz, double highestHz, double standardDeviation)
    {
        _amplitude = standardDeviation * Math.Sqrt(2.0 / Count);
        double logRange = PortableMath.Log(highestHz / lowestHz);
        for (int i = 0; i < Count; i++)
        {
            double place = (i + random.Uniform(2 * i)) / Count;
            _hz[i] = lowestHz * PortableMath.Exp(logRange * place);
            _startTurns[i] = random.Uniform((2 * i) + 1);
        }
    }

    /// <summary>The fluctuation at a time [its unit].</summary>
    /// <param name="seconds">Time [s].</param>
    public double Value(double seconds)
    {
        return _amplitude * SineSum.At(_hz, _startTurns, seconds);
    }
}
