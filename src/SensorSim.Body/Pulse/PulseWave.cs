// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Pulse;

/// <summary>One component of one pulse: height × (x·e^(1−x))^n with x = time since its start / time to its peak; zero before.</summary>
/// <remarks>The order n is 3, 6 or 9, so the wave is smooth to the second derivative and more, also at its start.</remarks>
/// <param name="StartSeconds">Where it starts [s].</param>
/// <param name="ToPeakSeconds">Time from start to peak [s], above 0.</param>
/// <param name="Height">Value at the peak [share of the pulse unit].</param>
/// <param name="Thirds">A third of the order n: 1, 2 or 3.</param>
public readonly record struct PulseWave(double StartSeconds, double ToPeakSeconds, double Height, int Thirds)
{
    // Where (x·e^(1−x))^n has fallen to 1e-8, by n/3.
    private static readonly double[] s_cut = [0, 9.34, 5.84, 4.62];

    /// <summary>1 / time to peak [1/s].</summary>
    internal readonly double PerSecond = 1 / ToPeakSeconds;

    /// <summary>Where the wave is cut off: a hundred-millionth of its height [s].</summary>
    public double CutSeconds => StartSeconds + (s_cut[Thirds] * ToPeakSeconds);

    /// <summary>Where the wave is cut off, as x.</summary>
    internal readonly double CutX = s_cut[Thirds];

    /// <summary>Adds the wave and its derivatives at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="at">Sum so far.</param>
    public void Accumulate(double seconds, ref PulsePoint at)
    {
        double x = (seconds - StartSeconds) * PerSecond;
        if (x <= 0 || x > s_cut[Thirds])
        {
            return;
        }

        double h = x * PortableMath.Exp(1 - x);
        double cube = h * h * h;
        double v = Height * cube;
        for (int i = 1; i < Thirds; i++)
        {
            v *= cube;
        }

        // Logarithmic derivative l = v'/v of n (ln x + 1 − x) and its own derivatives; v'' / v = l² + l' and so on.
        double n = 3 * Thirds;
        double inverse = PerSecond / x;
        double l = n * (inverse - PerSecond);
        double l1 = -n * inverse * inverse;
        double l2 = -2 * l1 * inverse;
        double l3 = -3 * l2 * inverse;
        double ll = l * l;
        at.Value += v;
        at.Slope += v * l;
        at.Curvature += v * (ll + l1);
        at.Jerk += v * ((l * (ll + (3 * l1))) + l2);
        at.JerkSlope += v * ((ll * (ll + (6 * l1))) + (3 * l1 * l1) + (4 * l * l2) + l3);
    }
}
