// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

/// <summary>A foot is believed when the pulse is shaped like those before it: within 6 ms from foot to steepest point, 7 ms to the peak.</summary>
[TestFixture]
public sealed class PulseLikenessTests
{
    [TestCase(25)]
    [TestCase(100)]
    [TestCase(500)]
    public void IsUsual_WithinReach_OfTheMedianBefore(int rateHz)
    {
        foreach ((double riseMs, double peakMs, bool isUsual) in new[]
        {
            (0.0, 0.0, true), (5.5, 0, true), (-5.5, 0, true), (6.5, 0, false), (-6.5, 0, false),
            (0, 6.5, true), (0, -6.5, true), (0, 7.5, false), (0, -7.5, false), (4, 4.5, true), (5.5, 6.5, false), (-4, 6, false),
        })
        {
            PulseShape shape = Learned(rateHz, 8);
            shape.Add(Pulse(rateHz, 70 + riseMs, 180 + peakMs), 0);
            Assert.That(shape.IsUsual, Is.EqualTo(isUsual), $"{riseMs} and {peakMs} ms");
        }
    }

    // Movement changes height and times together: what one alone may be off, two may not. A unit of height, 1/64 octave, is worth half a millisecond,
    // and six units are the most that it counts for: heights that alternate say nothing of the foot.
    [TestCase(0, 0, 1000, true)]
    [TestCase(4, 0, 12, true)]
    [TestCase(0, -6.5, 4, true)]
    [TestCase(0, -6.5, 6, false)]
    [TestCase(0, -6.5, 12, false)]
    [TestCase(4, 2.5, 4, true)]
    [TestCase(4, 2.5, 6, false)]
    [TestCase(5.5, 0, 12, true)]
    public void IsUsual_HeightAndTimes_AreHeldTogether(double riseMs, double peakMs, int heightOff, bool isUsual)
    {
        PulseShape shape = Learned(100, 8);
        shape.Add(Pulse(100, 70 + riseMs, 180 + peakMs), heightOff);
        Assert.That(shape.IsUsual, Is.EqualTo(isUsual));
    }

    [Test]
    public void IsUsual_NeverBeforeFourPulses()
    {
        PulseShape shape = default;
        shape.Start(100);
        for (int i = 0; i < 8; i++)
        {
            shape.Add(Pulse(100, 70, 180), 0);
            Assert.That(shape.IsUsual, Is.EqualTo(i >= 4), $"pulse {i}");
        }
    }

    [Test]
    public void IsUsual_AfterThreeOdd_IsByTheOthers_AndANewShapeIsLearned()
    {
        PulseShape shape = Learned(100, 8);
        for (int i = 0; i < 3; i++)
        {
            shape.Add(Pulse(100, 90, 210), 0);
            Assert.That(shape.IsUsual, Is.False);
        }

        PulseShape usual = shape;
        usual.Add(Pulse(100, 70, 180), 0);
        Assert.That(usual.IsUsual, Is.True);
        for (int i = 0; i < 3; i++)
        {
            shape.Add(Pulse(100, 90, 210), 0);
        }

        Assert.That(shape.IsUsual, Is.True);
    }

    // Peaks beyond 256 samples clip: none may look like its own past by a wrap.
    [Test]
    public void IsUsual_FarBeyondAnyPulse_ClipsWithoutWrapping()
    {
        PulseShape shape = Learned(500, 8);
        shape.Add(Pulse(500, 70, 180 + (65_536 / 256 * 2)), 0);
        Assert.That(shape.IsUsual, Is.False);
    }

    private static PulseShape Learned(int rateHz, int pulses)
    {
        PulseShape shape = default;
        shape.Start(rateHz);
        for (int i = 0; i < pulses; i++)
        {
            shape.Add(Pulse(rateHz, 70, 180), 0);
        }

        return shape;
    }

    private static PulseEvent Pulse(int rateHz, double riseMs, double peakMs)
    {
        const long foot = 256_000;
        SamplePosition At(double ms) => SamplePosition.From256(foot + (long)Math.Round(ms * rateHz * 0.256));
        return new PulseEvent(SamplePosition.From256(foot), At(riseMs), At(peakMs), 1000, 255, 2000);
    }
}
