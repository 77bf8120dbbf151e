// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests.Fitting;

/// <summary>
/// Check values. Beetles: Bliss CI, Ann Appl Biol 22:134-167, 1935, data and first digits as in Dobson AJ, An Introduction to Generalized Linear
/// Models (from memory), further digits recomputed by an independent program. Aphids: Martin JT, 1942, in Finney DJ, Probit Analysis: data
/// from a secondary source, estimates recomputed likewise.
/// </summary>
[TestFixture]
public sealed class BinomialCurveTests
{
    private static readonly BinomialLevel[] Beetles =
    [
        new(1.6907, 59, 6), new(1.7242, 60, 13), new(1.7552, 62, 18), new(1.7842, 56, 28),
        new(1.8113, 63, 52), new(1.8369, 59, 53), new(1.8610, 62, 61), new(1.8839, 60, 60),
    ];

    private static readonly BinomialLevel[] Aphids =
    [
        new(Math.Log10(10.2), 50, 44), new(Math.Log10(7.7), 49, 42), new(Math.Log10(5.1), 46, 24),
        new(Math.Log10(3.8), 48, 16), new(Math.Log10(2.6), 50, 6),
    ];

    [TestCase(CurveLink.Logit, -60.7175, 5.1807, 34.2703, 2.9121, 11.2322, 10.0268, 1.77172, 0.00386, 1.76386, 1.77920)]
    [TestCase(CurveLink.Probit, -34.9353, 2.6479, 19.7279, 1.4872, 10.1198, 9.5134, 1.77085, 0.00380, 1.76311, 1.77819)]
    [TestCase(CurveLink.ComplementaryLogLog, -39.5723, 3.2403, 22.0412, 1.7994, 3.4464, 3.2947, 1.77875, 0.00401, 1.77021, 1.78616)]
    public void Fit_Beetles_GivesPublishedFigures(
        CurveLink link, double intercept, double interceptError, double slope, double slopeError, double deviance, double pearson, double half, double halfError, double low, double high)
    {
        BinomialCurve curve = new BinomialCurveFitter(link).Fit(Beetles)!;
        Check(curve, intercept, interceptError, slope, slopeError, deviance, 1e-4);
        Assert.That(curve.PearsonX2, Is.EqualTo(pearson).Within(1e-4));
        Assert.That(curve.DegreesOfFreedom, Is.EqualTo(6));
        Assert.That(curve.IsStep, Is.False);
        Assert.That(curve.LevelAt(0.5), Is.EqualTo(half).Within(1e-5));
        Assert.That(curve.StandardErrorAt(0.5), Is.EqualTo(halfError).Within(1e-5));
        Interval fieller = curve.FiellerAt(0.5)!.Value;
        Assert.That(fieller.Low, Is.EqualTo(low).Within(1e-5));
        Assert.That(fieller.High, Is.EqualTo(high).Within(1e-5));
    }

    [TestCase(CurveLink.Probit, -2.88746, 0.35104, 4.21320, 0.48056, 1.7390, 0.68534, 0.02207, 4.8455, 4.3645, 5.3544)]
    [TestCase(CurveLink.Logit, -4.88691, 0.64293, 7.14618, 0.89275, 1.4241, 0.68385, 0.02245, 4.8289, 4.3410, 5.3501)]
    public void Fit_Aphids_GivesPublishedFigures(
        CurveLink link, double intercept, double interceptError, double slope, double slopeError, double deviance, double half, double halfError, double dose, double low, double high)
    {
        BinomialCurve curve = new BinomialCurveFitter(link).Fit(Aphids)!;
        Check(curve, intercept, interceptError, slope, slopeError, deviance, 1e-5);
        Assert.That(curve.DegreesOfFreedom, Is.EqualTo(3));
        Assert.That(curve.LevelAt(0.5), Is.EqualTo(half).Within(1e-5));
        Assert.That(curve.StandardErrorAt(0.5), Is.EqualTo(halfError).Within(1e-5));
        Assert.That(Math.Pow(10, curve.LevelAt(0.5)!.Value), Is.EqualTo(dose).Within(1e-4));
        Interval fieller = curve.FiellerAt(0.5)!.Value;
        Assert.That(Math.Pow(10, fieller.Low), Is.EqualTo(low).Within(1e-4));
        Assert.That(Math.Pow(10, fieller.High), Is.EqualTo(high).Within(1e-4));
    }

    [TestCase(CurveLink.Logit, new[] { 3.46, 9.84, 22.45, 33.90, 50.10, 53.29, 59.22, 58.74 })]
    [TestCase(CurveLink.ComplementaryLogLog, new[] { 5.59, 11.28, 20.95, 30.37, 47.78, 54.14, 61.11, 59.95 })]
    public void At_Beetles_GivesPublishedDeaths(CurveLink link, double[] deaths)
    {
        BinomialCurve curve = new BinomialCurveFitter(link).Fit(Beetles)!;
        Assert.That(Beetles.Select(b => b.Trials * curve.At(b.Level)), Is.EqualTo(deaths).Within(0.0051));
    }

    [Test]
    public void Covariance_BeetlesLogit_IsPublished() =>
        Assert.That(new BinomialCurveFitter(CurveLink.Logit).Fit(Beetles)!.Covariance, Is.EqualTo(-15.0822).Within(1e-4));

    // Counts that lie on a curve to the rounding of a large number of trials: the most likely curve is that curve.
    [TestCase(CurveLink.Logit, 0.03, 0.0, -0.4)]
    [TestCase(CurveLink.Logit, 0.005, 0.35, -0.4)]
    [TestCase(CurveLink.Probit, 0.02, 0.6, 0.3)]
    public void Fit_CountsOfACurve_FindsItsLapseAndFloor(CurveLink link, double lapse, double floor, double slope)
    {
        var truth = new BinomialCurve { Link = link, Intercept = 1.2, Slope = slope, Lapse = lapse, Floor = floor };
        BinomialLevel[] levels = [.. Enumerable.Range(0, 12).Select(i => -14 + (3.0 * i)).Select(x => new BinomialLevel(x, 1e9, Math.Round(1e9 * truth.At(x))))];
        BinomialCurve curve = new BinomialCurveFitter(link, 0.06, 0.95).Fit(levels)!;
        Assert.That(curve.Lapse, Is.EqualTo(lapse).Within(1e-5));
        Assert.That(curve.Floor, Is.EqualTo(floor).Within(1e-5));
        Assert.That(curve.Intercept, Is.EqualTo(1.2).Within(1e-4));
        Assert.That(curve.Slope, Is.EqualTo(slope).Within(1e-4));
        Assert.That(curve.IsConverged);
    }

    [Test]
    public void Fit_CountsOfABentLine_FindsTheBend()
    {
        var truth = new BinomialCurve { Link = CurveLink.Logit, Intercept = 1.2, Slope = -0.5, Bend = 0.02, Lapse = 0.01 };
        BinomialLevel[] levels = [.. Enumerable.Range(0, 12).Select(i => -14.0 + (2 * i)).Select(x => new BinomialLevel(x, 1e9, Math.Round(1e9 * truth.At(x))))];
        BinomialCurve curve = new BinomialCurveFitter(CurveLink.Logit, 0.06, 0, double.PositiveInfinity).Fit(levels)!;
        Assert.That(curve.Bend, Is.EqualTo(0.02).Within(1e-4));
        Assert.That(curve.Slope, Is.EqualTo(-0.5).Within(1e-3));
        Assert.That(curve.Intercept, Is.EqualTo(1.2).Within(1e-3));
        Assert.That(curve.Lapse, Is.EqualTo(0.01).Within(1e-4));
        Assert.That(new BinomialCurveFitter(CurveLink.Logit, 0.06, 0, 1e-9).Fit(levels)!.Bend, Is.EqualTo(0).Within(1e-6), "a prior that allows none");
    }

    [Test]
    public void Fit_LapseAboveItsBound_StaysAtTheBound()
    {
        var truth = new BinomialCurve { Link = CurveLink.Logit, Intercept = 0, Slope = 1, Lapse = 0.2 };
        BinomialLevel[] levels = [.. Enumerable.Range(-5, 11).Select(x => new BinomialLevel(x, 1000, Math.Round(1000 * truth.At(x))))];
        Assert.That(new BinomialCurveFitter(CurveLink.Logit, 0.06).Fit(levels)!.Lapse, Is.EqualTo(0.06));
    }

    [TestCase(new[] { 20, 20, 20, 0, 0 })]
    [TestCase(new[] { 20, 20, 7, 0, 0 })]
    public void Fit_AllOrNothing_IsAStepAndNotAnEndlessSlope(int[] successes)
    {
        BinomialLevel[] levels = [.. successes.Select((s, i) => new BinomialLevel(i, 20, s))];
        BinomialCurve curve = new BinomialCurveFitter(CurveLink.Logit, 0.06).Fit(levels)!;
        Assert.That(curve.IsStep);
        Assert.That(curve.LevelAt(0.5), Is.InRange(1, 3));
    }

    [Test]
    public void Fit_OneLevel_IsNull() => Assert.That(new BinomialCurveFitter(CurveLink.Logit).Fit([new(1, 5, 2), new(2, 0, 0)]), Is.Null);

    [Test]
    public void FiellerAt_SlopeNotSignificant_IsNull() =>
        Assert.That(new BinomialCurveFitter(CurveLink.Logit).Fit([new(0, 10, 5), new(1, 10, 6), new(2, 10, 5)])!.FiellerAt(0.5), Is.Null);

    [Test]
    public void Fit_StartedAtAnotherCurve_EndsAtTheSame()
    {
        var fitter = new BinomialCurveFitter(CurveLink.Probit, 0.06);
        BinomialCurve cold = fitter.Fit(Beetles)!;
        BinomialCurve warm = fitter.Fit(Beetles, cold with { Slope = cold.Slope * 0.8, Intercept = cold.Intercept * 0.8, Lapse = 0.03 })!;
        Assert.That(warm.Slope, Is.EqualTo(cold.Slope).Within(1e-5));
        Assert.That(warm.Intercept, Is.EqualTo(cold.Intercept).Within(1e-5));
    }

    private static void Check(BinomialCurve curve, double intercept, double interceptError, double slope, double slopeError, double deviance, double tolerance)
    {
        Assert.That(curve.IsConverged);
        Assert.That(curve.Intercept, Is.EqualTo(intercept).Within(tolerance));
        Assert.That(Math.Sqrt(curve.InterceptVariance), Is.EqualTo(interceptError).Within(tolerance));
        Assert.That(curve.Slope, Is.EqualTo(slope).Within(tolerance));
        Assert.That(Math.Sqrt(curve.SlopeVariance), Is.EqualTo(slopeError).Within(tolerance));
        Assert.That(curve.Deviance, Is.EqualTo(deviance).Within(1e-4));
    }
}
