// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What fixed point costs the measures that the gates are decided on.</summary>
[TestFixture]
public sealed class GateTwinTests
{
    // The root is rounded down: half a mg and √(1/12). Three axes and their gravity rounded to a mg add 6/12 mg² to the mean square: 1/4 mg over the
    // level, and where codes are coarser than that the rounding of the codes is in both.
    [TestCase(1, 50, 16_384)]
    [TestCase(1, 400, 4096)]
    [TestCase(0.13, 50, 16_384)]
    [TestCase(0.15, 25, 1024)]
    [TestCase(0.03, 100, 4096)]
    public void MovementLevel_Gait_IsTheTwinsRoundedDown(double size, int rateHz, int codesPerG)
    {
        (StageCost level, double otherPercent) = GateCosts.Movement(size, rateHz, codesPerG);
        Assert.That(level.ErrorMean, Is.EqualTo(-0.5).Within(0.05));
        Assert.That(level.ErrorSd, Is.EqualTo(Math.Sqrt(1 / 12.0)).Within(5).Percent);
        Assert.That(level.ErrorMax, Is.LessThan(1.15));

        // Rounded down it moves from 61 mg on instead of above 60.
        Assert.That(otherPercent, Is.LessThan(1));
    }

    // The factor has eight bits behind its point and is rounded down, as is the root with its four: together up to a per cent and a half low. The
    // level is rounded down to a step, and the sum to 18 bits before.
    [TestCase(25, 60_000)]
    [TestCase(100, 100)]
    [TestCase(100, 2000)]
    [TestCase(100, 60_000)]
    [TestCase(250, 60_000)]
    [TestCase(500, 60_000)]
    public void PulseNoise_AnyRate_ReadsLowByWhatItsFactorLacks(int rateHz, double amplitudeCodes)
    {
        PulseWindows w = PulseWindows.ForRate(rateHz);
        int m = w.WatchArm;
        double squares = m * (m + 1) * ((2 * m) + 1) / 3.0;
        double factor = Math.Sqrt(squares * Math.PI / 40) / w.NoiseBlock;
        double least = 1 - (1 / (256 * factor)) - (1 / (16 * Math.Sqrt(squares))) - 0.0002;
        (StageCost level, double ratio) = GateCosts.Noise(rateHz, amplitudeCodes);
        double mean = -level.ErrorMean / (1 - ratio);
        Assert.That(level.SignalRms, Is.Positive);
        Assert.That(mean, Is.GreaterThan(5));
        Assert.That(ratio, Is.LessThan(1).And.GreaterThan(least - (1 / mean)));
        Assert.That(level.ErrorMax, Is.LessThan(((1 - least) * (mean + (5 * level.SignalRms))) + 1));
    }

    // A straight line between powers of two lies up to 5.51/64 octave below the logarithm; two heights are compared, each rounded down, and the
    // median of an even number is rounded down once more.
    [TestCase(500, 10)]
    [TestCase(500, 1000)]
    [TestCase(32_000, 123_456)]
    public void Evidence_Heights_AreTrueToTheBendOfTheScale(long ticksPerSecond, int heightCodes)
    {
        EvidenceCosts costs = GateCosts.Evidence(ticksPerSecond, heightCodes);
        Assert.That(costs.HeightOff.SignalRms, Is.GreaterThan(8));
        Assert.That(costs.HeightOff.ErrorMax, Is.LessThan(5.51 + 1.5));
        Assert.That(costs.OtherHeightsPercent, Is.InRange(1, 35));
        Assert.That(costs.WidestHeight, Is.LessThan(5.51 + 1.5));
    }

    // An interval is rounded down by less than a unit of at most 1/1024 s, its median once more; of medians of half a second and more that is less
    // than 3/512.
    [TestCase(500)]
    [TestCase(1024)]
    [TestCase(32_000)]
    public void Evidence_Intervals_StandOutAsThoseOfTheTwin(long ticksPerSecond)
    {
        EvidenceCosts costs = GateCosts.Evidence(ticksPerSecond, 1000);
        Assert.That(costs.OtherIntervalsPercent, Is.LessThan(1));
        Assert.That(costs.WidestInterval, Is.LessThan(3 / 512.0));
    }

    // Amplitudes are whole codes, and their mean with a quarter new is rounded: up to half a code, four times.
    [TestCase(20_000)]
    [TestCase(300_000)]
    [TestCase(8_000_000)]
    public void Perfusion_Falling_ShutsWithinTwoCodesOfTheBound(int levelCodes)
    {
        GateDecisions decisions = GateDecisions.Perfusion(levelCodes);
        Assert.That(decisions.Decisions, Is.GreaterThan(1000));
        Assert.That(decisions.Taken, Is.InRange(15, 20));
        Assert.That(decisions.Widest, Is.LessThanOrEqualTo(2));
    }

    // Arrival times in units of 16 µs, rounded: off the median by up to 8 + 8 µs, the median of an even number 16 lower, bounds by up to 16.
    [TestCase(3000)]
    [TestCase(5000)]
    [TestCase(6500)]
    public void Arrivals_Scattered_AreHeldAsByTheTwin(double sdUs)
    {
        GateDecisions decisions = GateDecisions.Arrivals(sdUs);
        Assert.That(decisions.Decisions, Is.GreaterThan(2000));
        Assert.That(decisions.Taken, Is.GreaterThan(100));
        Assert.That(decisions.Other, Is.LessThan(0.01 * decisions.Decisions));
        Assert.That(decisions.Widest, Is.LessThanOrEqualTo(48));
    }
}
