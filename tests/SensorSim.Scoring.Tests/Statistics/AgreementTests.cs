// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Scoring.Statistics.Agreement;
using static SensorSim.Scoring.Tests.Statistics.PublishedData;

namespace SensorSim.Scoring.Tests.Statistics;

/// <summary>Check values: the peak-flow example of Bland and Altman 1986 (printed figures from memory, recomputed to more digits outside of this project).</summary>
public class AgreementTests
{
    [Test]
    public void Of_PeakFlowByTheRuleOf1986_GivesThePrintedFigures()
    {
        LimitsOfAgreement a = LimitsOfAgreement.Of(Wright1.Minus(Mini1), LimitRule.TwoSd, LimitErrorForm.Form1986)!;

        // Printed: -2.1, 38.8, -79.7 and 75.5, 9.4, -22.0 to 17.8, 16.3, -114.3 to -45.1, 40.9 to 110.1.
        Assert.That(a.Bias, Is.EqualTo(-2.117647).Within(1e-6));
        Assert.That(a.Sd, Is.EqualTo(38.765130).Within(1e-6));
        Assert.That(new[] { a.LowerLimit, a.UpperLimit }, Is.EqualTo(new[] { -79.6479, 75.4126 }).Within(5e-5));
        Assert.That(a.BiasStandardError, Is.EqualTo(9.401925).Within(1e-6));
        Assert.That(new[] { a.BiasInterval.Low, a.BiasInterval.High }, Is.EqualTo(new[] { -22.0488, 17.8135 }).Within(1e-4));
        Assert.That(a.LimitStandardError, Is.EqualTo(16.284612).Within(1e-6));
        Assert.That(new[] { a.LowerLimitInterval.Low, a.LowerLimitInterval.High }, Is.EqualTo(new[] { -114.1697, -45.1261 }).Within(1e-4));
        Assert.That(new[] { a.UpperLimitInterval.Low, a.UpperLimitInterval.High }, Is.EqualTo(new[] { 40.8908, 109.9344 }).Within(1e-4));
    }

    [Test]
    public void Of_PeakFlowByDefault_HasLimitsAt196AndTheErrorOf1999()
    {
        LimitsOfAgreement a = LimitsOfAgreement.Of(Wright1.Minus(Mini1))!;
        Assert.That(new[] { a.LowerLimit, a.UpperLimit }, Is.EqualTo(new[] { -78.0973, 73.8620 }).Within(5e-5));
        Assert.That(a.LimitStandardError, Is.EqualTo(16.395108).Within(1e-6));
    }

    [Test]
    public void Of_OneDifference_IsNull() => Assert.That(LimitsOfAgreement.Of([1]), Is.Null);

    [Test]
    public void Repeatability_PeakFlowPairs_GivesThePrintedFigures()
    {
        Repeatability wright = Repeatability.Of(Wright1.PairsWith(Wright2))!;
        Repeatability mini = Repeatability.Of(Mini1.PairsWith(Mini2))!;

        // Printed: 15.3 and 19.9; twice the root mean square of the differences 43.2 and 56.4.
        Assert.That(new[] { wright.WithinSd, mini.WithinSd }, Is.EqualTo(new[] { 15.306669, 19.910831 }).Within(1e-6));
        Assert.That(new[] { wright.Coefficient(LimitRule.TwoSd), mini.Coefficient(LimitRule.TwoSd) }, Is.EqualTo(new[] { 43.2938, 56.3163 }).Within(5e-5));

        // Means of two: printed -6.0, 33.2 and, corrected, 37.7.
        LimitsOfAgreement means = LimitsOfAgreement.Of(Wright1.MeanWith(Wright2).Minus(Mini1.MeanWith(Mini2)))!;
        Assert.That(new[] { means.Bias, means.Sd }, Is.EqualTo(new[] { -6.029412, 33.204137 }).Within(1e-6));
        Assert.That(Repeatability.SdOfSingles(means.Sd, wright, mini), Is.EqualTo(37.66).Within(0.01));
    }

    // Printed in Bland and Altman 1999, section 5.2: 0.1072, 0.1379, mean of 1/m 0.2097 (from memory).
    [Test]
    public void Repeatability_UnequalNumbers_GivesThePrintedVariances()
    {
        Repeatability rv = Repeatability.Of(CardiacOutput.Select(s => (double[])[.. s.Select(p => p.Rv)]))!;
        Repeatability ic = Repeatability.Of(CardiacOutput.Select(s => (double[])[.. s.Select(p => p.Ic)]))!;
        Assert.That(new[] { rv.WithinSd * rv.WithinSd, ic.WithinSd * ic.WithinSd }, Is.EqualTo(new[] { 0.1072, 0.1379 }).Within(5e-5));
        Assert.That(1 / rv.HarmonicCount, Is.EqualTo(0.2097).Within(5e-5));
    }

    // The same data as pairs of a changing value: recomputed outside of this project by a one-way analysis of variance.
    [Test]
    public void Repeated_UnequalNumbers_SplitsTheVariance()
    {
        RepeatedAgreement a = RepeatedAgreement.Of(CardiacOutput.Select(s => (double[])[.. s.Select(p => p.Rv - p.Ic)]))!;
        Assert.That((a.SubjectCount, a.Count), Is.EqualTo((12, 60L)));
        Assert.That(a.Bias, Is.EqualTo(0.6021667).Within(1e-7));
        Assert.That(a.WithinVariance, Is.EqualTo(0.1707140).Within(1e-7));
        Assert.That(a.BetweenMeanSquare, Is.EqualTo(4.2090861).Within(1e-7));
        Assert.That(a.TypicalCount, Is.EqualTo(4.9818182).Within(1e-7));
        Assert.That(a.BetweenVariance, Is.EqualTo(0.8106221).Within(1e-7));
        Assert.That(new[] { a.LowerLimit, a.UpperLimit }, Is.EqualTo(new[] { -1.33946, 2.54379 }).Within(1e-5));
    }

    // A published oximeter study, 331 pairs: between 0.463, within 1.131, limits -2.52 and +2.43 about -0.05 (a maker's manual).
    [Test]
    public void Repeated_PublishedComponents_GiveThePublishedLimits()
    {
        // Two subjects of two differences each, built to have these components: within 1.131, between mean square 1.131 + 2 × 0.463.
        double within = Math.Sqrt(1.131 / 2);
        double between = Math.Sqrt((1.131 + (2 * 0.463)) / 4);
        RepeatedAgreement a = RepeatedAgreement.Of(
        [
            [-0.05 + between + within, -0.05 + between - within],
            [-0.05 - between + within, -0.05 - between - within],
        ])!;
        Assert.That(new[] { a.BetweenVariance, a.WithinVariance }, Is.EqualTo(new[] { 0.463, 1.131 }).Within(1e-9));
        Assert.That(new[] { a.LowerLimit, a.UpperLimit }, Is.EqualTo(new[] { -2.52, 2.43 }).Within(0.01));
    }

    [Test]
    public void Repeated_SubjectsAlike_HaveNoVarianceBetween()
    {
        RepeatedAgreement a = RepeatedAgreement.Of([[-1, 1], [1, -1], [-1, 1]])!;
        Assert.That((a.BetweenVariance, a.WithinVariance), Is.EqualTo((0.0, 2.0)));
        Assert.That(RepeatedAgreement.Of([[1], [2]]), Is.Null, "one each");
        Assert.That(RepeatedAgreement.Of([[1, 2]]), Is.Null, "one subject");
    }
}
