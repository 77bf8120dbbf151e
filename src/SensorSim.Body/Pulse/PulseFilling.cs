// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>How much a pulse gets from the filling of the heart before it: little after a short interval, somewhat more after a pause.</summary>
/// <remarks>
/// q = RR interval before the beat / usual RR interval. Gain 0 below q = 0.45, from there linearly to 1 at 0.95, 1 to q = 1, then
/// 1 + 0.25 (q − 1), at most 1.5. Choice of this project, set by two figures: a premature ventricular beat ejects about 71 % less
/// (clinical review), the beat after its pause raises the pulse pressure by 9.8 ± 5.4 % in health (abstract on post-extrasystolic
/// finger pressure), the stroke volume by about 18 %. Very early beats may not open the aortic valve at all (common practice).
/// </remarks>
public static class PulseFilling
{
    /// <summary>A pulse with a lower gain counts as none: the truth of the beat is <c>no_pulse</c>.</summary>
    public const double LeastGain = 0.10;

    private const double EmptyBelow = 0.45;
    private const double FullFrom = 0.95;
    private const double PauseSlope = 0.25;
    private const double MostRule = 1.5;

    /// <summary>Factor of the pulse height.</summary>
    /// <param name="filling">q: RR interval before the beat / usual RR interval (lagged), at least 0.</param>
    /// <param name="effect"><see cref="PulseKeys.FillingEffect"/>: 0 leaves 1, 1 is the rule, 2 doubles its distance from 1.</param>
    /// <returns>At least 0; with an effect of 1 at most 1.5, with 2 at most 2.</returns>
    public static double Gain(double filling, double effect) => Math.Max(0, 1 + (effect * (Rule(filling) - 1)));

    private static double Rule(double q)
    {
        double filled = (q - EmptyBelow) / (FullFrom - EmptyBelow);
        return q <= 1 ? Math.Max(0, Math.Min(1, filled)) : Math.Min(MostRule, 1 + (PauseSlope * (q - 1)));
    }
}
