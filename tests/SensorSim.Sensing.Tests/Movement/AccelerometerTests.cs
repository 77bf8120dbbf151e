// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Movement;

public sealed class AccelerometerTests
{
    [Test]
    public void Codes_AtRest_AreOneGUpwards()
    {
        Recording recording = Recording.Of(new KeyValues(), 10);
        Assert.That(recording.Codes(ChannelName.AccelX), Has.All.Zero);
        Assert.That(recording.Codes(ChannelName.AccelY), Has.All.Zero);

        // 14 bits over ±4 g: 2 × 4 / 16384 g to a code, 1 g is 2048.
        Assert.That(recording.Codes(ChannelName.AccelZ), Has.All.EqualTo(2048));
    }

    // Step = 2 × range / 2^bits (textbook): 12 bits 0.977, 1.953, 3.906, 7.813 mg; 16 bits 0.0610, 0.1221, 0.2441, 0.4883 mg.
    [TestCase(2, 12, 0.977)]
    [TestCase(4, 12, 1.953)]
    [TestCase(8, 12, 3.906)]
    [TestCase(16, 12, 7.813)]
    [TestCase(2, 16, 0.0610)]
    [TestCase(4, 16, 0.1221)]
    [TestCase(8, 16, 0.2441)]
    [TestCase(16, 16, 0.4883)]
    public void Step_OfTheConverter_IsRangeOverCodes(double rangeG, double bits, double milliG)
    {
        KeyValues values = new KeyValues().Set(AccelerometerKeys.RangeG, rangeG).Set(AccelerometerKeys.Bits, bits);
        Assert.That(1e3 * Recording.Of(values, 1).Channel(ChannelName.AccelZ).UnitPerCode, Is.EqualTo(milliG).Within(milliG * 1e-3));
    }

    // Steps at the cadence, arm swing at half of it (textbook of gait, from memory).
    [TestCase(1.5)]
    [TestCase(1.9)]
    [TestCase(3.0)]
    public void Spectrum_WhileWalking_PeaksAtTheCadenceUpwardsAndAtHalfOfItForward(double cadenceHz)
    {
        Recording recording = Recording.Of(Walking(cadenceHz), 200);
        Assert.That(Measure.PeakHz(recording.Physical(ChannelName.AccelZ), 50), Is.EqualTo(cadenceHz).Within(0.0025));
        Assert.That(Measure.PeakHz(recording.Physical(ChannelName.AccelX), 50), Is.EqualTo(cadenceHz / 2).Within(0.0025));
        Assert.That(
            Measure.Line(Measure.WithoutMean(recording.Physical(ChannelName.AccelZ)), cadenceHz, 50).Magnitude,
            Is.EqualTo(0.4).Within(0.1).Percent, "vertical peak at the cadence [g]");
    }

    [Test]
    public void Mean_WhileWalking_IsGravity()
    {
        Recording recording = Recording.Of(Walking(1.9), 200);
        Assert.That(recording.Physical(ChannelName.AccelX).Average(), Is.EqualTo(0).Within(1e-4));
        Assert.That(recording.Physical(ChannelName.AccelZ).Average(), Is.EqualTo(1).Within(1e-4));
    }

    // Acceleration is a signal in time: every fifth sample at 250 Hz is the sample at 50 Hz, except that the phase is drawn straight
    // between anchors at most 0.3 s apart. That is off by at most (0.3 s)² / 8 × 0.024 Hz/s, the fastest change of the stride's frequency
    // at the default spread (eight sines of 0.0125 Hz, 0.005 to 0.1 Hz): 0.0017 rad. Over the terms of z, sum of multiple × size = 4.4 × 0.4 g.
    [Test]
    public void Codes_AtFiveTimesTheRate_AreTheSameMovement()
    {
        KeyValues values = Settings.Fine().Set(MovementKeys.Activity, "walking");
        double[] slow = Recording.Of(values, 200).Physical(ChannelName.AccelZ);
        double[] fast = Recording.Of(values.Copy().Set(AccelerometerKeys.RateHz, 250), 200).Physical(ChannelName.AccelZ);
        double[] differences = [.. slow.Select((v, i) => v - fast[5 * i])];
        Assert.That(differences.Max(Math.Abs), Is.LessThan(0.0017 * 4.4 * 0.4));
        Assert.That(Measure.Rms(differences), Is.LessThan(0.002 * 0.4));
    }

    private static KeyValues Walking(double cadenceHz) => Settings.Steady().Set(MovementKeys.Activity, "walking").Set(MovementKeys.CadenceHz, cadenceHz);
}
