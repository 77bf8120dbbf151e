// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>Gains and delays of the library's filters of whole numbers, measured from their impulses, against closed forms.</summary>
[TestFixture]
public sealed class StageResponseTests
{
    // Boxes: sin(π f n / fs) / sin(π f / fs); second difference: 4 sin²(π f d / fs).
    [TestCase(100)]
    [TestCase(125)]
    [TestCase(200)]
    [TestCase(250)]
    [TestCase(360)]
    [TestCase(500)]
    [TestCase(1000)]
    public void BandPass_AnyRate_HasGainAndDelayOfTheClosedForm(int rateHz)
    {
        BeatWindows w = BeatWindows.ForRate(rateHz);
        var filter = new BandPass();
        filter.Restart(w, 0);

        // 2^16 times as high as a step of the shift: what it drops is below 10^-4 of the answer.
        double[] impulse = FilterMeasure.Impulse(v => filter.Next(v), 128, 1 << 18);
        double working = (double)rateHz / w.Decimation;
        double delay = ((w.FirstSum + w.SecondSum - 2) / 2.0) + w.Arm;
        foreach (double hz in new[] { 1, 4, 10, 16, 22, 35 })
        {
            double half = Math.PI * hz / working;
            double expected = Math.Abs(Math.Sin(half * w.FirstSum) * Math.Sin(half * w.SecondSum)) / Math.Pow(Math.Sin(half), 2)
                * 4 * Math.Pow(Math.Sin(half * w.Arm), 2) * Math.ScaleB(1, -w.SumShift);
            double largest = w.FirstSum * w.SecondSum * Math.ScaleB(4, -w.SumShift);
            Assert.That(FilterMeasure.Gain(impulse, hz, working), Is.EqualTo(expected).Within(largest * 1e-4), $"{hz} Hz");
            if (expected > largest / 20)
            {
                Assert.That(FilterMeasure.Delay(impulse, hz, working), Is.EqualTo(delay).Within(1e-3), $"{hz} Hz");
            }
        }
    }

    // Σ k x over −m..m has the response 2 Σ k sin(ω k): exact, as nothing is rounded.
    [TestCase(50)]
    [TestCase(100)]
    [TestCase(250)]
    [TestCase(400)]
    public void WatchSlope_AnyRate_HasGainAndDelayOfTheClosedForm(int rateHz)
    {
        PulseWindows w = PulseWindows.ForRate(rateHz);
        double working = (double)rateHz / w.Decimation;
        int m = w.WatchArm;
        var x = new Queue<int>(Enumerable.Repeat(0, (2 * m) + 1));
        var filter = new WatchSlope();
        filter.Restart(m, 0);
        double[] impulse = FilterMeasure.Impulse(
            v =>
            {
                x.Enqueue(v);
                return filter.Next(v, x.Dequeue());
            },
            64);
        foreach (double hz in new[] { 0.5, 1, 2, 5, 8 })
        {
            double expected = Math.Abs(2 * Enumerable.Range(1, m).Sum(k => k * Math.Sin(2 * Math.PI * hz * k / working)));
            Assert.That(FilterMeasure.Gain(impulse, hz, working), Is.EqualTo(expected).Within(1e-9), $"{hz} Hz");
        }

        Assert.That(FilterMeasure.Delay(impulse, 1, working), Is.EqualTo(m).Within(1e-9));
    }

    // A cubic passes exactly what it fits: the slope of t³ − 2t² + 5t − 7 in the middle is 5, its level −7, whatever the length.
    [TestCase(2)]
    [TestCase(6)]
    [TestCase(15)]
    public void CubicFit_OfACubic_IsItsSlopeAndLevel(int arm)
    {
        var fit = new CubicFit();
        fit.Restart(arm);
        Word256 held = default;
        for (int k = -arm; k <= arm; k++)
        {
            held[100 + k] = (k * k * k) - (2 * k * k) + (5 * k) - 7;
        }

        // Weights are rounded by up to half of 2^-14 each; the values reach arm³ + 2 arm² + ….
        double tolerance = ((2 * arm) + 1) * 0.5 / 16384 * Math.Abs(held[100 - arm]);
        Assert.That(fit.Slope(held, 100, 0) / 16384.0, Is.EqualTo(5).Within(tolerance));
        Assert.That(fit.Level(held, 100, 0, 0) / 16384.0, Is.EqualTo(-7).Within(tolerance));
    }
}
