// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The 95 % interval of a crossing: percentiles of its resamples, moved out for how few seeds and subjects there are and aside for skewness.</summary>
/// <remarks>
/// Resamples of n spread too little by √((n − 1)/n), and normal quantiles are too short for few: both are made up for as in Hesterberg TC, Am Stat
/// 69:371-386, 2015 (from memory). Seeds and subjects share in the degrees of freedom by their parts of the variance, found by leaving each out
/// (Welch and Satterthwaite). Both factors resampled at once: Owen AB, Ann Appl Stat 1:386-411, 2007 (from memory). A sample that happens to hold few of the
/// bad seeds has a good figure and a small spread at once; the acceleration of BCa (Efron B, J Am Stat Assoc 82:171-185, 1987, from memory) makes
/// up for that. Its other part, the median's bias, is left out: it measures the pull of the curve's prior, and with it intervals held the truth less often.
/// </remarks>
internal static class CrossingInterval
{
    private const double LargestAcceleration = 0.15;

    /// <summary>The interval on the axis; null without resamples.</summary>
    /// <param name="data">The figures.</param>
    /// <param name="finder">What finds crossings.</param>
    /// <param name="found">Those of the resamples.</param>
    public static Interval? Of(SearchData data, ICrossingFinder finder, IReadOnlyList<Crossing> found)
    {
        if (found.Count == 0)
        {
            return null;
        }

        double[] lows = [.. found.Select(c => c.Low).Order()];
        double[] highs = [.. found.Select(c => c.High).Order()];
        double[] withoutSeed = Places(data.WithoutSeed, finder);
        double[] withoutSubject = Places(data.WithoutSubject, finder);
        double z = NormalQuantile(withoutSeed, withoutSubject);
        double acceleration = Acceleration([.. Deviations(withoutSeed), .. Deviations(withoutSubject)]);

        // Where the change lies between two levels, the lower end is that of the lower ones.
        // Ends move out for skewness and never in: on the other side the curve's own bias, whose sign nobody knows, needs the room.
        return new Interval(
            ResamplingIntervals.Quantile(lows, Normal.CDF(0, 1, -z / (1 + Math.Min(0, acceleration * z)))),
            ResamplingIntervals.Quantile(highs, Normal.CDF(0, 1, z / (1 - Math.Max(0, acceleration * z)))));
    }

    private static double[] Places(double[][] leftOut, ICrossingFinder finder) =>
        [.. leftOut.Select(l => finder.Find(l)).Where(c => double.IsFinite(c.Low) && double.IsFinite(c.High)).Select(c => (c.Low + c.High) / 2)];

    private static IEnumerable<double> Deviations(double[] places)
    {
        double mean = places.Length == 0 ? 0 : places.Average();
        return places.Select(p => p - mean);
    }

    // Deviations are about the mean of their own kind. Bounded, so that one odd seed among few does not open the interval.
    private static double Acceleration(double[] deviations) =>
        deviations.Length == 0 ? 0 : Math.Clamp(ResamplingIntervals.Acceleration(deviations), -LargestAcceleration, LargestAcceleration);

    /// <summary>The confidence to ask of percentiles so that few seeds and subjects give the wanted one.</summary>
    /// <param name="withoutSeed">The figure without each seed.</param>
    /// <param name="withoutSubject">The figure without each subject.</param>
    /// <param name="wanted">The wanted confidence, above 0 and below 1.</param>
    internal static double Confidence(double[] withoutSeed, double[] withoutSubject, double wanted = 0.95) =>
        (2 * Normal.CDF(0, 1, NormalQuantile(withoutSeed, withoutSubject, wanted))) - 1;

    // The quantile of the normal distribution that gives the wanted confidence with few seeds and subjects.
    private static double NormalQuantile(double[] withoutSeed, double[] withoutSubject, double wanted = 0.95)
    {
        (double a, int n) = (Deviations(withoutSeed).Sum(d => d * d), withoutSeed.Length);
        (double b, int m) = (Deviations(withoutSubject).Sum(d => d * d), withoutSubject.Length);
        double first = n < 2 ? 0 : a * (n - 1) / n;
        double second = m < 2 ? 0 : b * (m - 1) / m;
        double sum = first + second;
        if (!(sum > 0))
        {
            return Normal.InvCDF(0, 1, (1 + wanted) / 2);
        }

        double freedom = sum * sum / ((n < 2 ? 0 : first * first / (n - 1)) + (m < 2 ? 0 : second * second / (m - 1)));
        double wider = Math.Sqrt(((n < 2 ? 0 : first * n / (n - 1)) + (m < 2 ? 0 : second * m / (m - 1))) / sum);
        return wider * StudentT.InvCDF(0, 1, freedom, (1 + wanted) / 2);
    }
}
