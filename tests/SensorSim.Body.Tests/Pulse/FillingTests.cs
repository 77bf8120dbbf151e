// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>The gain of a pulse from the filling before it.</summary>
public sealed class FillingTests
{
    // A ventricular premature beat ejects about 71 % less (clinical review); the pulse pressure after its pause rises by 9.8 +- 5.4 % in
    // health (abstract on post-extrasystolic finger pressure). The rule between is a choice of this project, worked out by hand here.
    [TestCase(0.00, 0.0)]
    [TestCase(0.45, 0.0)]
    [TestCase(0.50, 0.1)]
    [TestCase(0.60, 0.30)]
    [TestCase(0.70, 0.50)]
    [TestCase(0.95, 1.0)]
    [TestCase(1.00, 1.0)]
    [TestCase(1.40, 1.10)]
    [TestCase(1.50, 1.125)]
    [TestCase(3.00, 1.5)]
    [TestCase(9.00, 1.5)]
    public void Gain_FullEffect_FollowsTheRule(double filling, double gain)
    {
        Assert.That(PulseFilling.Gain(filling, 1), Is.EqualTo(gain).Within(1e-12));
        Assert.That(PulseFilling.Gain(filling, 0), Is.EqualTo(1), "off");
        Assert.That(PulseFilling.Gain(filling, 0.5), Is.EqualTo((1 + gain) / 2).Within(1e-12), "half");
        Assert.That(PulseFilling.Gain(filling, 2), Is.EqualTo(Math.Max(0, (2 * gain) - 1)).Within(1e-12), "double");
    }

    [Test]
    public void LeastGain_IsReachedAtHalfTheUsualInterval() =>
        Assert.That(PulseFilling.Gain(0.5, 1), Is.EqualTo(PulseFilling.LeastGain).Within(1e-12));

    // The default body's variability (28 ms about 923 ms): the gain hardly moves, and never marks a beat as one without pulse.
    [Test]
    public void Gain_OrdinarySinusRhythm_HardlyMoves()
    {
        List<BeatView> beats = new Heartbeats(new KeyValues(), 9, 1800).Beats;
        double[] gains = [.. Enumerable.Range(1, beats.Count - 1).Select(i => PulseFilling.Gain(beats[i - 1].RrSeconds / beats[i].LaggedRrSeconds, 1))];
        TestContext.Out.WriteLine($"mean {Moments.Mean(gains):F4}, SD {Moments.Sd(gains):F4}, least {gains.Min():F3}, most {gains.Max():F3}");
        Assert.That(Moments.Mean(gains), Is.EqualTo(1).Within(0.01));
        Assert.That(Moments.Sd(gains), Is.LessThan(0.02));
        Assert.That(gains.Min(), Is.GreaterThan(0.85));
    }
}
