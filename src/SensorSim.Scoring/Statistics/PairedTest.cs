// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;

namespace SensorSim.Scoring.Statistics;

/// <summary>Two detectors on the same trials, told apart by the trials on which only one of them is right (McNemar).</summary>
/// <remarks>
/// Source: McNemar, Psychometrika 12:153-157, 1947; continuity correction by Edwards, Psychometrika 13:185-187, 1948 (both from memory). It holds for
/// independent trials: runs with seeds of their own are, beats of one run are not.
/// </remarks>
/// <param name="OnlyFirst">Trials on which only the first is right.</param>
/// <param name="OnlySecond">Trials on which only the second is right.</param>
public readonly record struct PairedTest(long OnlyFirst, long OnlySecond)
{
    /// <summary>Trials on which they differ.</summary>
    public long Discordant => OnlyFirst + OnlySecond;

    /// <summary>Exact two-sided probability of a split at least as uneven when both are alike; 1 when they never differ.</summary>
    public double ExactP => Discordant == 0
        ? 1
        : Math.Min(1, 2 * Binomial.CDF(0.5, Whole(Discordant), Math.Min(OnlyFirst, OnlySecond)));

    /// <summary>The same with half of the probability of the split itself (mid-P); less cautious.</summary>
    public double MidP => Discordant == 0
        ? 1
        : OnlyFirst == OnlySecond ? 1 : ExactP - At(Math.Min(OnlyFirst, OnlySecond));

    /// <summary>(|b − c| − 1)² / (b + c), not below 0: chi-square with continuity correction, one degree of freedom; null when they never differ.</summary>
    public double? CorrectedChiSquare => Discordant == 0
        ? null
        : Math.Pow(Math.Max(0, Math.Abs(OnlyFirst - OnlySecond) - 1), 2) / Discordant;

    /// <summary>Probability of a chi-square at least as large; 1 when they never differ.</summary>
    public double CorrectedP => CorrectedChiSquare is double x ? 1 - ChiSquared.CDF(1, x) : 1;

    private double At(long successes) => Binomial.PMF(0.5, Whole(Discordant), Whole(successes));

    private static int Whole(long count) => checked((int)count);
}
