// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Beats;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What fixed point costs the looking at shapes and the judging of beats.</summary>
[TestFixture]
public sealed class JudgeTwinTests
{
    // Likeness is rounded to 1/256: √(1/12) = 0.289 steps. Slopes of 12 bits and roots of some 13 bits, both rounded down, add hundredths of that.
    // Size: the root rounded down is up to 2^-13 too small, 0.012 %; the template's rest is twice that.
    // Spread: half a step of 1/16 step² each way; the limit that it is held against is 32 ms.
    [TestCase(125)]
    [TestCase(250)]
    [TestCase(500)]
    [TestCase(1000)]
    public void Shapes_OfOneMicrovoltACode_AreTrueToTheirWords(int rateHz)
    {
        ShapeCosts costs = ShapeCosts.Of(rateHz, 1);
        Assert.That(costs.Places, Is.GreaterThan(400));
        Assert.That(costs.Likeness.ErrorSd, Is.InRange(0.27, 0.32));
        Assert.That(costs.Likeness.ErrorMean, Is.EqualTo(0).Within(0.05));
        Assert.That(costs.Likeness.ErrorMax, Is.LessThan(0.75));
        Assert.That(costs.SizePercent.ErrorMax, Is.LessThan(0.06));
        Assert.That(costs.SpreadMs.ErrorMax, Is.LessThan(0.2));
        Assert.That(costs.OtherPlaces, Is.LessThanOrEqualTo(costs.Places / 100));
    }

    // Heights are halved, so levels are whole pairs: a threshold of 300,000 is off by a few of them. Medians of intervals lose half a sample of
    // some 200, likenesses are whole already: what differs is what lies within that of a limit. A hump that one counts as noise and the other
    // leaves out makes another threshold for the next eight of them.
    [Test]
    public void Judge_SameCandidates_DecidesAlikeButForOneInAThousand()
    {
        JudgeCosts costs = default;
        for (int seed = 1; seed <= 20; seed++)
        {
            costs += JudgeCosts.Of(seed, 400);
        }

        Assert.That(costs.Candidates, Is.GreaterThan(12_000));
        Assert.That(costs.Beats, Is.InRange(7_000, 9_000));
        Assert.That(costs.Candidates - costs.Beats, Is.GreaterThan(4_000), "there is something to turn down");
        Assert.That(costs.Differ, Is.LessThanOrEqualTo(costs.Candidates / 1000));
        Assert.That(costs.Wide, Is.LessThanOrEqualTo(costs.Beats / 1000));
        Assert.That(costs.OtherThreshold, Is.LessThanOrEqualTo(costs.Candidates / 50));
    }

    // 12 dB and transients with ectopic beats: the same beats. 6 dB: now and then a candidate lies on a limit. Times are told in 1/256 sample:
    // 1.5 times that as the bound of the root mean square, as in the clean.
    [TestCase(250, 0.107, 0.0, 0.0)]
    [TestCase(250, 0.213, 0.0, 0.01)]
    [TestCase(500, 0.213, 0.0, 0.01)]
    [TestCase(250, 0.01, 1.0, 0.005)]
    [TestCase(500, 0.01, 1.0, 0.005)]
    public void Beats_HardRecords_AreThoseOfTheTwin(int rateHz, double noiseMillivolts, double transientMillivolts, double most)
    {
        BeatCosts costs = default;
        for (int seed = 1; seed <= 2; seed++)
        {
            int[] codes = new SyntheticEcg { RateHz = rateHz, NoiseMillivolts = noiseMillivolts, EctopicShare = 0.1, RateBpm = 55 + (12 * seed) }.Make(180, seed);
            if (transientMillivolts > 0)
            {
                BeatStream.AddTransients(codes, rateHz, seed, 20, transientMillivolts);
            }

            costs += BeatCosts.Of(
                [.. Runs.Beats(codes, rateHz).Select(b => (Runs.Seconds(b.RPeak, rateHz), b.IsWide))],
                [.. BeatTwin.Beats([.. codes.Select(c => (double)c)], rateHz).Select(b => (b.TimeS, b.Beat.IsWide))]);
        }

        Assert.That(costs.Beats, Is.GreaterThan(400));
        Assert.That(costs.Differ, Is.LessThanOrEqualTo(most * costs.Beats));
        Assert.That(costs.Wide, Is.LessThanOrEqualTo(0.01 * costs.Beats));
        Assert.That(costs.RmsMs, Is.LessThan(1.5 * 1000.0 / 256 / rateHz));
    }
}
