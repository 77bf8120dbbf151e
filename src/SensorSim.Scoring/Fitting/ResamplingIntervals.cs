// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Fitting;

/// <summary>Confidence intervals from what a figure was in many resamples (bootstrap).</summary>
/// <remarks>Source: Efron B, Tibshirani RJ, An Introduction to the Bootstrap, 1993, chapters 13 and 14 (from memory).</remarks>
public static class ResamplingIntervals
{
    /// <summary>The interval between two quantiles of the resamples.</summary>
    /// <param name="resamples">The figure in each, in ascending order, at least one; infinite ones are allowed.</param>
    /// <param name="confidence">Confidence, above 0 and below 1.</param>
    public static Interval Percentile(ReadOnlySpan<double> resamples, double confidence = 0.95)
    {
        double tail = (1 - confidence) / 2;
        return new Interval(Quantile(resamples, tail), Quantile(resamples, 1 - tail));
    }

    /// <summary>The percentile interval, corrected for bias and for a spread that depends on the figure (BCa).</summary>
    /// <param name="resamples">The figure in each, in ascending order, at least one.</param>
    /// <param name="figure">The figure of the data.</param>
    /// <param name="leftOut">The figure of the data with one observation (seed) left out, for each of them.</param>
    /// <param name="confidence">Confidence, above 0 and below 1.</param>
    /// <exception cref="ArgumentException">All resamples lie on one side of the figure, so there is no correction.</exception>
    public static Interval Corrected(ReadOnlySpan<double> resamples, double figure, ReadOnlySpan<double> leftOut, double confidence = 0.95)
    {
        double below = 0;
        foreach (double value in resamples)
        {
            below += value < figure ? 1 : value == figure ? 0.5 : 0;
        }

        if (below == 0 || below == resamples.Length)
        {
            throw new ArgumentException("All resamples lie on one side of the figure.", nameof(resamples));
        }

        double bias = Normal.InvCDF(0, 1, below / resamples.Length);
        double acceleration = Acceleration(leftOut);
        double z = Normal.InvCDF(0, 1, (1 + confidence) / 2);
        return new Interval(Quantile(resamples, Place(bias, acceleration, -z)), Quantile(resamples, Place(bias, acceleration, z)));
    }

    /// <summary>How fast the standard error changes with the figure: a sixth of the skewness of the figures with one observation left out.</summary>
    /// <param name="leftOut">The figure with one observation left out, for each of them.</param>
    public static double Acceleration(ReadOnlySpan<double> leftOut)
    {
        double mean = 0;
        foreach (double value in leftOut)
        {
            mean += value / leftOut.Length;
        }

        double squares = 0;
        double cubes = 0;
        foreach (double value in leftOut)
        {
            double d = mean - value;
            squares += d * d;
            cubes += d * d * d;
        }

        return squares == 0 ? 0 : cubes / (6 * Math.Pow(squares, 1.5));
    }

    /// <summary>The value that a share of the sorted values does not exceed; nothing is averaged, so that infinite values stay what they are.</summary>
    /// <param name="sorted">Values in ascending order, at least one.</param>
    /// <param name="share">Share, 0 to 1.</param>
    public static double Quantile(ReadOnlySpan<double> sorted, double share) =>
        sorted[Math.Clamp((int)Math.Round(share * (sorted.Length + 1)) - 1, 0, sorted.Length - 1)];

    private static double Place(double bias, double acceleration, double z) =>
        Normal.CDF(0, 1, bias + ((bias + z) / (1 - (acceleration * (bias + z)))));
}
