// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Scoring.Statistics.Agreement;
using static SensorSim.Scoring.Tests.Statistics.PublishedData;

namespace SensorSim.Scoring.Tests.Statistics;

/// <summary>Intraclass and concordance correlations against published or recomputed values.</summary>
public class CorrelationTests
{
    // Shrout and Fleiss 1979, table 2 (from memory; more digits recomputed outside of this project).
    private static readonly double[][] s_shroutFleiss =
        [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]];

    [Test]
    public void Intraclass_ShroutFleiss_GivesThePublishedSixForms()
    {
        IntraclassCorrelation c = IntraclassCorrelation.Of(s_shroutFleiss);

        // Printed: 11.24, 6.26, 32.49, 1.02; 0.17, 0.29, 0.71; 0.44, 0.62, 0.91.
        Assert.That(
            new[] { c.TargetMeanSquare, c.WithinMeanSquare, c.JudgeMeanSquare, c.ErrorMeanSquare },
            Is.EqualTo(new[] { 11.241667, 6.263889, 32.486111, 1.019444 }).Within(1e-6));
        Assert.That(
            new[] { c.OneWaySingle, c.TwoWayRandomSingle, c.TwoWayFixedSingle },
            Is.EqualTo(new[] { 0.165742, 0.289764, 0.714841 }).Within(1e-6));
        Assert.That(
            new[] { c.OneWayAveraged, c.TwoWayRandomAveraged, c.TwoWayFixedAveraged },
            Is.EqualTo(new[] { 0.442797, 0.620051, 0.909316 }).Within(1e-6));
    }

    [Test]
    public void Intraclass_PeakFlow_GivesRecomputedValues()
    {
        IntraclassCorrelation c = IntraclassCorrelation.Of(Wright1.PairsWith(Mini1));
        Assert.That(
            new[] { c.OneWaySingle, c.TwoWayRandomSingle, c.TwoWayFixedSingle },
            Is.EqualTo(new[] { 0.946015, 0.945928, 0.942913 }).Within(1e-6));
    }

    [Test]
    public void Intraclass_RowsOfDifferentLength_Throws() =>
        Assert.That(() => IntraclassCorrelation.Of([[1, 2], [1]]), Throws.ArgumentException);

    // Formulas of Lin 1989 with the correction of 2000, recomputed outside of this project.
    [Test]
    public void Concordance_PeakFlow_GivesRecomputedValuesAndInterval()
    {
        ConcordanceCorrelation c = ConcordanceCorrelation.Of(Sums(Wright1, Mini1))!;
        Assert.That(c.Concordance, Is.EqualTo(0.942742).Within(1e-6));
        Assert.That(c.Pearson, Is.EqualTo(0.943279).Within(1e-6), "printed 0.94 in Bland and Altman 1986");
        Assert.That(c.BiasCorrection, Is.EqualTo(0.999431).Within(1e-6));
        Assert.That(c.StandardError, Is.EqualTo(0.028617).Within(1e-6));
        Assert.That(c.Interval95!.Value.Low, Is.EqualTo(0.8505).Within(5e-5));
        Assert.That(c.Interval95!.Value.High, Is.EqualTo(0.9787).Within(5e-5));
    }

    [Test]
    public void Concordance_PerfectAgreement_IsOneWithoutInterval()
    {
        ConcordanceCorrelation c = ConcordanceCorrelation.Of(Sums(Wright1, Wright1))!;
        Assert.That((c.Concordance, c.Interval95), Is.EqualTo((1.0, (Interval?)null)).Using<(double, Interval?)>((a, b) => Math.Abs(a.Item1 - b.Item1) < 1e-12 && a.Item2 is null));
        Assert.That(ConcordanceCorrelation.Of(Sums([1, 1, 1], [1, 2, 3])), Is.Null, "truth does not vary");
    }

    private static PairSums Sums(double[] truth, double[] estimate)
    {
        var sums = new PairSums();
        for (int i = 0; i < truth.Length; i++)
        {
            sums.Add(truth[i], estimate[i]);
        }

        return sums;
    }
}
