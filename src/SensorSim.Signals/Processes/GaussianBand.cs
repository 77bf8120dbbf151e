// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Processes;

/// <summary>A random fluctuation whose power spectrum is a Gaussian band; a closed form, so any time can be asked for.</summary>
/// <remarks>
/// Sixteen sines of equal power; their frequencies are drawn one from each of sixteen equally probable parts of the normal
/// distribution of the band. The variance is that of the sines, sum of a²/2, so the level is exact and not measured from a draw.
/// </remarks>
public sealed class GaussianBand
{
    private const int Count = 16;
    private readonly double _amplitude;
    private readonly double[] _hz = new double[Count];
    private readonly double[] _startTurns = new double[Count];

    /// <summary>Creates a fluctuation.</summary>
    /// <param name="random">Its own source; draws 0 to 31 are used.</param>
    /// <param name="centreHz">Middle of the band [Hz].</param>
    /// <param name="widthHz">Standard deviation of the band [Hz]; lines that would fall below a tenth of the middle are moved there.</param>
    /// <param name="standardDeviation">Standard deviation of the fluctuation [its unit], at least 0.</param>
    public GaussianBand(KeyedRandom random, double centreHz, double widthHz, double standardDeviation)
    {
        _amplitude = standardDeviation * Math.Sqrt(2.0 / Count);
        for (int i = 0; i < Count; i++)
        {
            double place = (i + random.Uniform(2 * i)) / Count;
            uint word = unchecked((uint)(long)Math.Floor(place * 4294967296.0));
            _hz[i] = Math.Max(centreHz * 0.1, centreHz + (widthHz * InverseNormal.FromWord(word)));
            _startTurns[i] = random.Uniform((2 * i) + 1);
        }
    }

    /// <summary>The fluctuation at a time [its unit].</summary>
    /// <param name="seconds">Time [s].</param>
    public double Value(double seconds)
    {
        if (_amplitude == 0)
        {
            return 0;
        }

        return _amplitude * SineSum.At(_hz, _startTurns, seconds);
    }
}
