// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;

namespace SensorSim.Scoring.Statistics;

/// <summary>Limits of the mean number of rare events, of which some were counted: exact, by the Poisson distribution.</summary>
/// <remarks>
/// Source: Garwood F, Biometrika 28:437-442, 1936; in terms of chi-square Ulm K, Am J Epidemiol 131:373-375, 1990 (both from memory). They
/// hold for independent events; readings that share beats come in clusters, so count clusters, or read the limits as too narrow.
/// </remarks>
public static class EventRates
{
    /// <summary>Two-sided 95 % interval of the mean number of events.</summary>
    /// <param name="count">Events counted, at least 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is negative.</exception>
    public static Interval Interval95(long count)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        double low = count == 0 ? 0 : Gamma.InvCDF(count, 1, 0.025);
        return new Interval(low, Gamma.InvCDF(count + 1.0, 1, 0.975));
    }

    /// <summary>The mean number of events that is exceeded with a confidence of 5 % only (one-sided); without an event 3.0.</summary>
    /// <param name="count">Events counted, at least 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is negative.</exception>
    public static double UpperLimit95(long count)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        return Gamma.InvCDF(count + 1.0, 1, 0.95);
    }
}
