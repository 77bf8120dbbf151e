// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>One wave of one beat: a Gaussian in time.</summary>
/// <param name="CentreSeconds">Time of its peak [s].</param>
/// <param name="SigmaSeconds">Width as a standard deviation [s], above 0.</param>
/// <param name="Millivolts">Height of its peak [mV]; negative points down, 0 is no wave.</param>
public readonly record struct EcgWave(double CentreSeconds, double SigmaSeconds, double Millivolts)
{
    /// <summary>Standard deviations from the peak to where the wave has fallen to 2 %: √(2 ln 50).</summary>
    public const double EdgeSigmas = 2.797149622536537;

    /// <summary>Standard deviations from the peak to where the wave is cut off: 1e-11 of the peak, far below any converter step.</summary>
    public const double CutSigmas = 7.117;

    /// <summary>Where the wave begins: 2 % of its peak [s].</summary>
    public double OnsetSeconds => CentreSeconds - (EdgeSigmas * SigmaSeconds);

    /// <summary>Where the wave ends: 2 % of its peak [s].</summary>
    public double EndSeconds => CentreSeconds + (EdgeSigmas * SigmaSeconds);

    /// <summary>
    /// Where the tangent at the steepest point after the peak meets the zero level, both of the wave alone [s]. The steepest point of a
    /// Gaussian lies one standard deviation from its peak, where height over slope is one standard deviation: so two after the peak.
    /// </summary>
    public double TangentEndSeconds => CentreSeconds + (2 * SigmaSeconds);

    /// <summary>Adds the wave's voltage and its first two derivatives at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="value">Voltage so far [mV].</param>
    /// <param name="slope">First derivative so far [mV/s].</param>
    /// <param name="curvature">Second derivative so far [mV/s²].</param>
    public void Accumulate(double seconds, ref double value, ref double slope, ref double curvature)
    {
        double x = (seconds - CentreSeconds) / SigmaSeconds;
        if (!(Math.Abs(x) <= CutSigmas))
        {
            return;
        }

        double g = Millivolts * PortableMath.Exp(-0.5 * x * x);
        value += g;
        slope -= g * x / SigmaSeconds;
        curvature += g * ((x * x) - 1) / (SigmaSeconds * SigmaSeconds);
    }
}
