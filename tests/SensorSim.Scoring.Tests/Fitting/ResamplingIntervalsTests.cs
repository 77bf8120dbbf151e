// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests.Fitting;

/// <summary>
/// Check values: Efron B, Tibshirani RJ, An Introduction to the Bootstrap, 1993 (from secondary sources): spatial test A and the law schools; ends
/// for many resamples recomputed by an independent program, with the tolerance of its own resampling.
/// </summary>
[TestFixture]
public sealed class ResamplingIntervalsTests
{
    private static readonly double[] Spatial =
        [48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6, 0, 33, 28, 34, 4, 32, 24, 47, 41, 24, 26, 30, 41];

    private static readonly double[] Admission = [576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594];
    private static readonly double[] Grade = [3.39, 3.30, 2.81, 3.03, 3.44, 3.07, 3.00, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96];

    [Test]
    public void Corrected_SpatialVariance_GivesPublishedEnds()
    {
        double[] leftOut = LeftOut(26, Variance);
        double[] resamples = Resamples(26, 40_000, Variance);
        double figure = Variance([.. Enumerable.Range(0, 26)]);
        Assert.That(figure, Is.EqualTo(171.534024).Within(1e-6));
        Assert.That(ResamplingIntervals.Acceleration(leftOut), Is.EqualTo(0.061240).Within(1e-6));
        Interval percentile = ResamplingIntervals.Percentile(resamples, 0.90);
        Assert.That(percentile.Low, Is.EqualTo(97.9).Within(4));
        Assert.That(percentile.High, Is.EqualTo(235.8).Within(4));
        Interval corrected = ResamplingIntervals.Corrected(resamples, figure, leftOut, 0.90);
        Assert.That(corrected.Low, Is.EqualTo(115.5).Within(4));
        Assert.That(corrected.High, Is.EqualTo(261).Within(4));
    }

    [Test]
    public void Corrected_LawSchoolCorrelation_GivesPublishedEnds()
    {
        double[] leftOut = LeftOut(15, Correlation);
        double[] resamples = Resamples(15, 40_000, Correlation);
        double figure = Correlation([.. Enumerable.Range(0, 15)]);
        Assert.That(figure, Is.EqualTo(0.776374).Within(1e-6));
        Assert.That(ResamplingIntervals.Acceleration(leftOut), Is.EqualTo(-0.075672).Within(1e-6));
        Interval percentile = ResamplingIntervals.Percentile(resamples, 0.90);
        Assert.That(percentile.Low, Is.EqualTo(0.523).Within(0.015));
        Assert.That(percentile.High, Is.EqualTo(0.948).Within(0.015));
        Interval corrected = ResamplingIntervals.Corrected(resamples, figure, leftOut, 0.90);
        Assert.That(corrected.Low, Is.EqualTo(0.429).Within(0.015));
        Assert.That(corrected.High, Is.EqualTo(0.927).Within(0.015));
        Interval wide = ResamplingIntervals.Corrected(resamples, figure, leftOut);
        Assert.That(wide.Low, Is.EqualTo(0.332).Within(0.02));
        Assert.That(wide.High, Is.EqualTo(0.942).Within(0.015));
    }

    [Test]
    public void Percentile_InfiniteResamples_KeepsThemInfinite()
    {
        double[] resamples = [.. Enumerable.Range(0, 900).Select(i => (double)i), .. Enumerable.Repeat(double.PositiveInfinity, 100)];
        Interval interval = ResamplingIntervals.Percentile(resamples);
        Assert.That(interval.Low, Is.EqualTo(24).Within(1));
        Assert.That(interval.High, Is.EqualTo(double.PositiveInfinity));
    }

    private static double Variance(int[] drawn)
    {
        double mean = drawn.Average(i => Spatial[i]);
        return drawn.Average(i => (Spatial[i] - mean) * (Spatial[i] - mean));
    }

    private static double Correlation(int[] drawn)
    {
        double x = drawn.Average(i => Admission[i]);
        double y = drawn.Average(i => Grade[i]);
        double xy = drawn.Sum(i => (Admission[i] - x) * (Grade[i] - y));
        return xy / Math.Sqrt(drawn.Sum(i => (Admission[i] - x) * (Admission[i] - x)) * drawn.Sum(i => (Grade[i] - y) * (Grade[i] - y)));
    }

    private static double[] LeftOut(int count, Func<int[], double> figure) =>
        [.. Enumerable.Range(0, count).Select(left => figure([.. Enumerable.Range(0, count).Where(i => i != left)]))];

    private static double[] Resamples(int count, int times, Func<int[], double> figure)
    {
        var random = new Random(17);
        return [.. Enumerable.Range(0, times).Select(_ => figure([.. Enumerable.Range(0, count).Select(_ => random.Next(count))])).Order()];
    }
}
