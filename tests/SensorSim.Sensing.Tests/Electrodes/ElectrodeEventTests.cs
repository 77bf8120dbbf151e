// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Half-cell voltage, its drift, steps and pops: levels by Campbell's theorem, one knob one change.</summary>
public sealed class ElectrodeEventTests
{
    private const int Rate = 50;

    // Variance of a train of events of mean 0 is rate × size² × ∫h² (Campbell; Rice, Bell Syst Tech J 23:282, 1944). The estimate over T
    // has the relative variance (3/rate + 2/α)/T: fourth moment of the normal sizes, and exponential correlation (Rice; own arithmetic).
    [TestCase(true, 30, 0.8, 2.0)]
    [TestCase(true, 4, 0.8, 10.0)]
    [TestCase(false, 60, 1.5, 0.1)]
    [TestCase(false, 110, 1.5, 0.5)]
    public void Trains_OverTwelveHours_HaveCampbellsPower(bool isSteps, double perMinute, double millivolts, double decaySeconds)
    {
        const double Seconds = 43200;
        KeyValues values = isSteps
            ? Slow().Set(ElectrodeKeys.StepsPerMin, perMinute).Set(ElectrodeKeys.StepMvRms, millivolts).Set(ElectrodeKeys.StepRecoveryS, decaySeconds)
            : Slow().Set(ElectrodeKeys.PopsPerMin, perMinute).Set(ElectrodeKeys.PopMvRms, millivolts).Set(ElectrodeKeys.PopDecayMs, decaySeconds * 1e3);
        double[] x = EcgTap.Of(values, Seconds).Millivolts;
        double energy = FrontEndResponse.Energy(FrontEndResponse.Omega(Rate), decaySeconds);
        double expected = perMinute / 60 * millivolts * millivolts * energy;
        double error = Math.Sqrt(((3 / (perMinute / 60)) + (2 * decaySeconds)) / Seconds);
        Assert.That(x.Average(v => v * v), Is.EqualTo(expected).Within(4 * error * expected));
        Assert.That(4 * error, Is.LessThan(0.2), "sharp enough to say something");
    }

    // From the first sample on: events before the start count too. Mean over seeds of the first ten seconds.
    [Test]
    public void Steps_AtTheStart_AreAsStrongAsLater()
    {
        KeyValues values = Slow().Set(ElectrodeKeys.StepsPerMin, 30).Set(ElectrodeKeys.StepRecoveryS, 20);
        double expected = 0.5 * 0.25 * FrontEndResponse.Energy(FrontEndResponse.Omega(Rate), 20);
        double power = Enumerable.Range(0, 300).Average(seed => Math.Pow(EcgTap.Of(values, 1, (ulong)seed).Millivolts[5], 2));

        // Ten events within a time constant: nearly normal, relative error √(2/n) and the fourth moment's 3/(rate · τ/2) / n.
        Assert.That(power, Is.EqualTo(expected).Within(4 * Math.Sqrt((2 + 0.6) / 300) * expected));
    }

    // A higher rate adds events and moves none: wherever the lower one gives something, the higher one does. Some 200 short pops, a handful of samples each.
    [Test]
    public void Rate_Raised_KeepsTheEventsThatWere()
    {
        double[] few = Pops(10);
        double[] many = Pops(40);
        int[] places = [.. Enumerable.Range(0, few.Length).Where(i => Math.Abs(few[i]) > 1e-6)];
        Assert.That(places, Has.Length.InRange(700, 1300));
        Assert.That(many.Count(v => Math.Abs(v) > 1e-6), Is.InRange(3 * places.Length, 5 * places.Length));
        Assert.That(places.Where(i => Math.Abs(many[i]) < 1e-9), Is.Empty);
    }

    // Sizes scale, and other sources do not change: pops are the same whether all else is on or off, and twice the size is twice the signal.
    [Test]
    public void Sizes_AtTwoLevels_AddTheSameSignalScaled()
    {
        foreach ((NumberKey rate, NumberKey size) in new[] { (ElectrodeKeys.StepsPerMin, ElectrodeKeys.StepMvRms), (ElectrodeKeys.PopsPerMin, ElectrodeKeys.PopMvRms) })
        {
            KeyValues crowd = Settings.Fine(Settings.Everything()).Set(ElectrodeKeys.StepsPerMin, 20).Set(ElectrodeKeys.PopsPerMin, 30)
                .Set(ElectrodeKeys.OffsetMv, 2).Set(ElectrodeKeys.OffsetDriftUvPerS, 40);
            double[] without = EcgTap.Of(crowd.Copy().Set(rate, 0), 30).Millivolts;
            double[] once = Measure.Less(EcgTap.Of(crowd.Copy().Set(rate, 30).Set(size, 0.3), 30).Millivolts, without);
            double[] thrice = Measure.Less(EcgTap.Of(crowd.Copy().Set(rate, 30).Set(size, 0.9), 30).Millivolts, without);
            double[] alone = EcgTap.Of(Settings.Silent().Set(rate, 30).Set(size, 0.3), 30).Millivolts;
            Assert.That(thrice, Is.EqualTo(once.Select(v => 3 * v)).Within(1e-13), rate.Name);
            Assert.That(once, Is.EqualTo(alone).Within(1e-13), rate.Name);
            Assert.That(Measure.Rms(once), Is.GreaterThan(0.01), rate.Name);
        }
    }

    [Test]
    public void OffsetAndDrift_OverTime_AreALine()
    {
        double[] x = EcgTap.Of(Settings.Silent().Set(ElectrodeKeys.OffsetMv, 3).Set(ElectrodeKeys.OffsetDriftUvPerS, -50), 60).Millivolts;
        for (int i = 0; i < x.Length; i++)
        {
            Assert.That(x[i], Is.EqualTo(3 - (0.05 * i / 250)).Within(1e-12));
        }
    }

    // 1 mV/s for half an hour would be 1.8 V: it turns at 300 mV, twice 600 mV further on.
    [Test]
    public void Drift_OverHalfAnHour_TurnsRoundAt300Millivolt()
    {
        double[] x = EcgTap.Of(Slow().Set(ElectrodeKeys.OffsetDriftUvPerS, 1000), 1800).Millivolts;
        Assert.That(x.Max(), Is.EqualTo(300).Within(0.03));
        Assert.That(x.Min(), Is.EqualTo(-300).Within(0.03));
        Assert.That(x[1000 * Rate], Is.EqualTo(-300 + 100).Within(1e-6), "300 up, 600 down, 100 up");
    }

    // Drift that begins later goes on from where it was: the integral of its course, a line between samples of the latch.
    [Test]
    public void Drift_ThatChanges_IsTheIntegralOfItsCourse()
    {
        KeyValues values = Settings.Silent().SetChanges(
            ElectrodeKeys.OffsetDriftUvPerS, [new CourseChange(10, ChangeKind.Step, 100, 0), new CourseChange(20, ChangeKind.Step, 0, 0)], []);
        double[] x = EcgTap.Of(values, 30).Millivolts;
        Assert.That(x[..2500], Has.All.EqualTo(0));
        Assert.That(x[15 * 250], Is.EqualTo(0.5).Within(1e-9));
        Assert.That(x[^1], Is.EqualTo(1).Within(1e-9));
    }

    // Sizes and time constants of what never happens change no bit.
    [Test]
    public void Sizes_WithoutARate_ChangeNoBit()
    {
        KeyValues values = Settings.Everything();
        Recording.Of(
            values.Copy().Set(ElectrodeKeys.StepMvRms, 50).Set(ElectrodeKeys.PopMvRms, 50).Set(ElectrodeKeys.PopDecayMs, 900)
                .Set(ElectrodeKeys.ContactLossS, 100).Set(ElectrodeKeys.OverloadMv, 5000).Set(ElectrodeKeys.ImpedancePositiveKohm, 900)
                .Set(ElectrodeKeys.Third, "none").Set(EcgAmplifierKeys.CmrrDb, 40),
            20).AssertSameAs(Recording.Of(values, 20), "sizes without rates");
    }

    private static KeyValues Slow() => Settings.Silent().Set(EcgAmplifierKeys.RateHz, Rate).Set(OpticsKeys.RateHz, 20).Set(AccelerometerKeys.RateHz, 10);

    private static double[] Pops(double perMinute) =>
        EcgTap.Of(Settings.Silent().Set(ElectrodeKeys.PopsPerMin, perMinute).Set(ElectrodeKeys.PopDecayMs, 1), 1200).Millivolts;
}
