// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>A lamp dimmed by switching, seen by the dark slot. Check values: own arithmetic, mean of a square wave = level × duty.</summary>
public sealed class PulseWidthLampTests
{
    private const double LampNa = 500;

    [Test]
    public void Mean_OverManyPeriods_IsLevelTimesDuty([Values(1.0, 40.0, 99.0)] double dutyPercent, [Values(487.3, 1234.567)] double hz)
    {
        double[] dark = Dark(hz, dutyPercent, 100, 200);
        Assert.That(dark.Average(), Is.EqualTo(LampNa * dutyPercent / 100).Within(LampNa * 1e-3));
    }

    [Test]
    public void OnShare_WindowShorterThanEitherPhase_IsBetweenNothingAndAll()
    {
        double[] dark = Dark(487.3, 40, 100, 200);
        Assert.That(dark.Min(), Is.Zero);
        Assert.That(dark.Max(), Is.EqualTo(LampNa).Within(1e-3));

        // Each of the two edges of a period falls into a window with probability f T.
        double cut = dark.Count(v => v > 0.01 && v < LampNa - 0.01) / (double)dark.Length;
        Assert.That(cut, Is.EqualTo(2 * 487.3 * 100e-6).Within(0.002));

        // All the share of the time that the lamp is on, less the edges.
        Assert.That(dark.Count(v => v >= LampNa - 0.01) / (double)dark.Length, Is.EqualTo(0.4 - (487.3 * 100e-6)).Within(0.002));
    }

    // 1 % of a period of 1/3001.7 s is on: 3.33 µs, a thirtieth of the window, is the most that a slot can see.
    [Test]
    public void OnShare_WindowLongerThanTheOnPhase_IsAtMostThatPhase()
    {
        double[] dark = Dark(3001.7, 1, 100, 60);
        Assert.That(dark.Max(), Is.EqualTo(LampNa * 0.01 / (3001.7 * 100e-6)).Within(1e-3));
        Assert.That(dark.Min(), Is.Zero);
    }

    // A window of exactly one or eight periods sees the mean, wherever it begins; 47 Hz slots begin at 47 different places.
    [TestCase(10_000, 100)]
    [TestCase(40_000, 200)]
    public void OnShare_WholePeriodsInTheWindow_IsTheDuty(double hz, double windowUs)
    {
        double[] dark = Dark(hz, 40, windowUs, 20, 47);
        Assert.That(dark, Has.All.EqualTo(LampNa * 0.4).Within(1e-3));
    }

    // 487.3 Hz in 100 Hz slots folds to 12.7 Hz (textbook folding). The fundamental of a square wave of duty d: 2/π sin(π d) (textbook),
    // times sin(x)/x of the window.
    [Test]
    public void Fundamental_In100HzSlots_FoldsTo12Point7Hz()
    {
        double[] dark = Dark(487.3, 40, 100, 100);
        double x = Math.PI * 487.3 * 100e-6;
        double expected = LampNa * 2 / Math.PI * Math.Sin(Math.PI * 0.4) * Math.Sin(x) / x;
        Assert.That(Measure.PeakHz(dark, 100), Is.EqualTo(12.7).Within(1e-9));
        Assert.That(Measure.Line(Measure.WithoutMean(dark), 12.7, 100).Magnitude, Is.EqualTo(expected).Within(1).Percent);
    }

    private static double[] Dark(double hz, double dutyPercent, double windowUs, double seconds, double rateHz = 100)
    {
        KeyValues values = Settings.Silent()
            .Set(OpticsKeys.RateHz, rateHz)
            .Set(OpticsKeys.IntegrationUs, windowUs)
            .Set(AmbientKeys.PulseWidthLampNa, LampNa)
            .Set(AmbientKeys.PulseWidthHz, hz)
            .Set(AmbientKeys.PulseWidthDutyPercent, dutyPercent);
        return Recording.Of(values, seconds).Physical(ChannelName.Dark);
    }
}
