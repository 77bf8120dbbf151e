// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests;

/// <summary>Check values: Newcombe RG, Stat Med 17:857-872, 1998, the four examples (from memory, recomputed); the others recomputed by the same formulas.</summary>
public class ProportionsTests
{
    [TestCase(81, 263, 0.2553, 0.3662)]
    [TestCase(15, 148, 0.0624, 0.1605)]
    [TestCase(0, 20, 0.0000, 0.1611)]
    [TestCase(1, 29, 0.0061, 0.1718)]
    [TestCase(23, 60, 0.2709, 0.5098)]
    [TestCase(95, 100, 0.8882, 0.9785)]
    [TestCase(998, 1000, 0.9927, 0.9995)]
    [TestCase(10, 10, 0.7225, 1.0000)]
    public void Wilson_PublishedExample_GivesPublishedInterval(long successes, long trials, double low, double high)
    {
        Interval interval = Proportions.Wilson(successes, trials)!.Value;
        Assert.That(interval.Low, Is.EqualTo(low).Within(0.00005001));
        Assert.That(interval.High, Is.EqualTo(high).Within(0.00005001));
    }

    [TestCase(81, 263, 0.2527, 0.3676)]
    [TestCase(15, 148, 0.0578, 0.1617)]
    [TestCase(0, 20, 0.0000, 0.1684)]
    [TestCase(1, 29, 0.0009, 0.1776)]
    [TestCase(23, 60, 0.2607, 0.5179)]
    [TestCase(95, 100, 0.8872, 0.9836)]
    [TestCase(998, 1000, 0.9928, 0.9998)]
    [TestCase(10, 10, 0.6915, 1.0000)]
    public void ClopperPearson_PublishedExample_GivesPublishedInterval(long successes, long trials, double low, double high)
    {
        Interval interval = Proportions.ClopperPearson(successes, trials)!.Value;
        Assert.That(interval.Low, Is.EqualTo(low).Within(0.00005001));
        Assert.That(interval.High, Is.EqualTo(high).Within(0.00005001));
    }

    [TestCase(81, 263, 0.2535, 0.3682)]
    [TestCase(15, 148, 0.0598, 0.1644)]
    [TestCase(0, 20, 0.0000, 0.2005)]
    [TestCase(1, 29, 0.0018, 0.1963)]
    [TestCase(23, 60, 0.2635, 0.5181)]
    [TestCase(95, 100, 0.8817, 0.9814)]
    [TestCase(998, 1000, 0.9920, 0.9997)]
    [TestCase(10, 10, 0.6555, 1.0000)]
    public void WilsonCorrected_PublishedExample_GivesPublishedInterval(long successes, long trials, double low, double high)
    {
        Interval interval = Proportions.WilsonCorrected(successes, trials)!.Value;
        Assert.That(interval.Low, Is.EqualTo(low).Within(0.00005001));
        Assert.That(interval.High, Is.EqualTo(high).Within(0.00005001));
    }

    [TestCase(81, 263, 0.2544, 0.3658)]
    [TestCase(15, 148, 0.0601, 0.1581)]
    [TestCase(0, 20, 0.0000, 0.1391)]
    [TestCase(1, 29, 0.0017, 0.1585)]
    [TestCase(23, 60, 0.2671, 0.5105)]
    [TestCase(95, 100, 0.8927, 0.9815)]
    [TestCase(998, 1000, 0.9934, 0.9997)]
    [TestCase(10, 10, 0.7411, 1.0000)]
    public void MidP_PublishedExample_GivesPublishedInterval(long successes, long trials, double low, double high)
    {
        Interval interval = Proportions.MidP(successes, trials)!.Value;
        Assert.That(interval.Low, Is.EqualTo(low).Within(0.00005001));
        Assert.That(interval.High, Is.EqualTo(high).Within(0.00005001));
    }

    [Test]
    public void Wilson_NoTrial_IsNull() => Assert.That(Proportions.Wilson(0, 0), Is.Null);

    [Test]
    public void Wilson_MoreSuccessesThanTrials_Throws() =>
        Assert.That(() => Proportions.Wilson(2, 1), Throws.InstanceOf<ArgumentOutOfRangeException>());
}
