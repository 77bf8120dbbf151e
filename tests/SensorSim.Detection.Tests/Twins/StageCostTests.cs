// SPDX-License-Identifier: MIT
using MathNet.Numerics.Statistics;
using SensorSim.Detection.Beats;
using SensorSim.Detection.Tests.Twins.Models;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What fixed point costs, stage by stage: each stage against its floating-point twin on the same codes.</summary>
[TestFixture]
public sealed class StageCostTests
{
    // A floor that drops b bits errs with a standard deviation of √((1 − 4^−b)/12) steps, white; the second sum and the difference 1, −2, 1
    // (which do not overlap) multiply its power by 6 × the length, and the difference takes its mean away. Below a gain of 2^6 nothing is
    // dropped: the stages are exact.
    [TestCase(125)]
    [TestCase(250)]
    [TestCase(360)]
    [TestCase(500)]
    [TestCase(1000)]
    public void BandPassAndEnergy_AnyRate_AddTheNoiseOfTheClosedForm(int rateHz)
    {
        BeatWindows w = BeatWindows.ForRate(rateHz);
        StageCost cost = StageCosts.BandPass(rateHz, 1);
        if (w.SumShift == 0)
        {
            Assert.That((cost.ErrorMax, StageCosts.Energy(rateHz, 1).ErrorMax), Is.EqualTo((0.0, 0.0)));
            return;
        }

        double expected = Math.Sqrt((1 - Math.Pow(4, -w.SumShift)) / 12 * 6 * w.SecondSum);
        Assert.That(cost.ErrorSd, Is.EqualTo(expected).Within(5).Percent);
        Assert.That(cost.ErrorMean, Is.EqualTo(0).Within(0.1));
        Assert.That(cost.Decibels, Is.LessThan(-55));
        Assert.That(StageCosts.Energy(rateHz, 1).Decibels, Is.LessThan(-55));
    }

    [TestCase(100)]
    [TestCase(250)]
    [TestCase(400)]
    public void WatchSlope_AnyRate_IsItsTwin(int rateHz) => Assert.That(StageCosts.WatchSlope(rateHz, 2000).ErrorMax, Is.Zero);

    // Weights of 14 fraction bits, differences of 15 bits: the fit of a pulse of 2000 codes is true to well below a thousandth.
    [TestCase(100)]
    [TestCase(250)]
    public void CubicFit_OnPulses_IsTrueToAThousandth(int rateHz)
    {
        Assert.That(StageCosts.CubicSlope(rateHz, 2000).Decibels, Is.InRange(-110, -60));
        Assert.That(StageCosts.CubicLevel(rateHz, 2000).Decibels, Is.InRange(-110, -60));
    }

    [Test]
    public void Median_RandomValues_IsTheStatisticsPackagesRoundedDown()
    {
        var random = new Random(5);
        for (int run = 0; run < 500; run++)
        {
            int[] values = [.. Enumerable.Range(0, 1 + random.Next(8)).Select(_ => random.Next(int.MinValue, int.MaxValue))];
            double exact = values.Select(v => (double)v).Median();
            Assert.That(Median.OfUpTo8(values), Is.EqualTo(Math.Floor(exact)));
        }
    }
}
