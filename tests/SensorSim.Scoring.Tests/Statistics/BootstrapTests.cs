// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Scoring.Statistics.Resampling;
using static SensorSim.Scoring.Tests.Statistics.PublishedData;

namespace SensorSim.Scoring.Tests.Statistics;

/// <summary>
/// Check values: Efron and Tibshirani 1993, the deterministic parts recomputed outside of this project, the ends of intervals from many resamples there
/// (the book's own come from 2000 and carry their error).
/// </summary>
public class BootstrapTests
{
    private static readonly BootstrapOptions s_many = new() { Seed = 7, Resamples = 20_000 };

    [Test]
    public void Of_VarianceOfSpatialTest_GivesBookIntervals()
    {
        Bootstrap b = Bootstrap.Of(Spatial.Length, chosen => VarianceN(chosen.Select(i => Spatial[i])), s_many)!;
        Assert.That(b.Estimate, Is.EqualTo(171.534024).Within(1e-6));
        Assert.That(b.Acceleration, Is.EqualTo(0.061240).Within(1e-6), "book 0.061");
        Assert.That(b.BiasCorrection, Is.EqualTo(0.174).Within(0.03));

        // Book, 90 %: percentile 100.8 to 233.9, BCa 115.8 to 259.6.
        Interval percentile = b.Percentile(0.9);
        Interval bca = b.Bca(0.9);
        Assert.That(new[] { percentile.Low, percentile.High }, Is.EqualTo(new[] { 97.9, 235.8 }).Within(4));
        Assert.That(new[] { bca.Low, bca.High }, Is.EqualTo(new[] { 115.5, 261.0 }).Within(4));
    }

    [Test]
    public void Of_CorrelationOfLawSchool_GivesManyResampleIntervals()
    {
        Bootstrap b = Bootstrap.Of(Lsat.Length, chosen => Correlation(chosen), s_many)!;
        Assert.That(b.Estimate, Is.EqualTo(0.776374).Within(1e-6));
        Assert.That(b.Acceleration, Is.EqualTo(-0.075672).Within(1e-6));
        Assert.That(b.StandardError, Is.EqualTo(0.1336).Within(0.003));
        Interval percentile = b.Percentile(0.9);
        Interval bca = b.Bca(0.9);
        Interval bca95 = b.Bca();
        Assert.That(new[] { percentile.Low, percentile.High }, Is.EqualTo(new[] { 0.523, 0.948 }).Within(0.015));
        Assert.That(new[] { bca.Low, bca.High }, Is.EqualTo(new[] { 0.429, 0.927 }).Within(0.015));
        Assert.That(new[] { bca95.Low, bca95.High }, Is.EqualTo(new[] { 0.332, 0.942 }).Within(0.02));
    }

    [Test]
    public void Of_SameSeed_SameReplicates_OtherSeed_Others()
    {
        var options = new BootstrapOptions { Resamples = 200 };
        double[] first = [.. Run(options).Replicates];
        Assert.That(Run(options).Replicates, Is.EqualTo(first));
        Assert.That(Run(options with { Seed = 2 }).Replicates, Is.Not.EqualTo(first));

        static Bootstrap Run(BootstrapOptions options) => Bootstrap.Of(Lsat.Length, chosen => chosen.Average(i => Lsat[i]), options)!;
    }

    // Ten clusters of a hundred equal values: the mean of the clusters has the standard error of ten values, not of a thousand.
    [Test]
    public void Of_Clusters_AreDrawnWhole()
    {
        double[] clusters = [.. Enumerable.Range(0, 10).Select(i => (double)i)];
        Bootstrap b = Bootstrap.Of(10, chosen => chosen.SelectMany(i => Enumerable.Repeat(clusters[i], 100)).Average(), s_many)!;

        // Standard deviation of 0 to 9 with divisor n is √8.25; of the mean of ten √0.825.
        Assert.That(b.StandardError, Is.EqualTo(Math.Sqrt(0.825)).Within(0.015));
    }

    [Test]
    public void OfDifference_SameStatistic_IsZeroEverywhere()
    {
        Bootstrap b = Bootstrap.OfDifference(Lsat.Length, c => c.Average(i => Lsat[i]), c => c.Average(i => Lsat[i]), new BootstrapOptions { Resamples = 100 })!;
        Assert.That((b.Estimate, b.Bca()), Is.EqualTo((0.0, new Interval(0, 0))), "the same resamples for both");
    }

    [Test]
    public void OfDifference_PairedShift_HasANarrowInterval()
    {
        // Paired: every unit is 3 higher but for one tenth; unpaired the spread of the units would swamp it.
        double[] other = [.. Lsat.Select((v, i) => v - 3 + (i % 2 == 0 ? 0.1 : -0.1))];
        Bootstrap b = Bootstrap.OfDifference(Lsat.Length, c => c.Average(i => Lsat[i]), c => c.Average(i => other[i]))!;
        Assert.That(new[] { b.Percentile().Low, b.Percentile().High }, Is.EqualTo(new[] { 3.0, 3.0 }).Within(0.1));
    }

    [Test]
    public void Of_UndefinedStatistic_IsLeftOutOrNull()
    {
        // Undefined when cluster 0 is not drawn: (1 − 1/5)⁵ = 32.8 % of resamples.
        Bootstrap b = Bootstrap.Of(5, c => c.Contains(0) ? 1.0 : null, s_many)!;
        Assert.That(b.UndefinedCount / 20_000.0, Is.EqualTo(0.32768).Within(0.01));
        Assert.That(Bootstrap.Of(5, _ => null), Is.Null);
        Assert.That(() => Bootstrap.Of(1, _ => 1), Throws.InstanceOf<ArgumentOutOfRangeException>());
        Assert.That(() => b.Percentile(1), Throws.InstanceOf<ArgumentOutOfRangeException>());
    }

    private static double VarianceN(IEnumerable<double> values)
    {
        double[] all = [.. values];
        double mean = all.Average();
        return all.Average(v => (v - mean) * (v - mean));
    }

    private static double? Correlation(int[] chosen)
    {
        var sums = new PairSums();
        foreach (int i in chosen)
        {
            sums.Add(Lsat[i], Gpa[i]);
        }

        return sums.Pearson;
    }
}
