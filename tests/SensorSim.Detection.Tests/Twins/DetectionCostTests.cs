// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What fixed point costs the answers: the whole detectors against their floating-point twins on the same codes.</summary>
[TestFixture]
public sealed class DetectionCostTests
{
    [TestCase(125, 0)]
    [TestCase(250, 0)]
    [TestCase(250, 0.107)]
    [TestCase(500, 0.107)]
    [TestCase(1000, 0.107)]
    public void Beats_FixedAndTwin_FindTheSamePeaks(int rateHz, double noiseMillivolts)
    {
        int[] codes = new SyntheticEcg { RateHz = rateHz, NoiseMillivolts = noiseMillivolts, EctopicShare = 0.1 }.Make(120, 5001);
        double[] fixedPoint = [.. Runs.Beats(codes, rateHz).Select(b => Runs.Seconds(b.RPeak, rateHz))];
        double[] twin = BeatTwin.Peaks([.. codes.Select(c => (double)c)], rateHz);
        Assert.That(fixedPoint, Has.Length.GreaterThan(100));
        Assert.That(twin, Has.Length.EqualTo(fixedPoint.Length));

        // Places are told in 1/256 sample; the parabola's differences keep 22 bits.
        Assert.That(RmsMs(fixedPoint, twin), Is.LessThan(1.5 * 1000.0 / 256 / rateHz));
    }

    [TestCase(100, 999)]
    [TestCase(100, 36)]
    [TestCase(250, 36)]
    public void Pulses_FixedAndTwin_FindTheSameFeet(int rateHz, double snrDb)
    {
        int[] codes = new SyntheticPulse { RateHz = rateHz, SnrDb = snrDb, BeatS = 0.94 }.Make(120, 5001);
        double[] fixedPoint = [.. Runs.Pulses(codes, rateHz).Select(p => Runs.Seconds(p.Foot, rateHz))];
        double[] twin = PulseTwin.Feet([.. codes.Select(c => (double)c)], rateHz);
        Assert.That(fixedPoint, Has.Length.GreaterThan(100));
        Assert.That(twin, Has.Length.EqualTo(fixedPoint.Length));
        Assert.That(RmsMs(fixedPoint, twin), Is.LessThan(0.05));
    }

    private static double RmsMs(double[] a, double[] b) => 1000 * Math.Sqrt(a.Zip(b, (x, y) => (x - y) * (x - y)).Average());
}
