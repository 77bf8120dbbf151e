// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Scoring.Matching;

namespace SensorSim.Scoring.Tests;

public class ScoredSpanTests
{
    // The rule of the project's definitions: max(8 s, min(300 s, 10 % of the record)).
    [TestCase(60, 8)]
    [TestCase(80, 8)]
    [TestCase(600, 60)]
    [TestCase(3000, 300)]
    [TestCase(604_800, 300)]
    public void DefaultLeadInNs_Record_FollowsTheRule(long durationS, long leadInS) =>
        Assert.That(ScoredSpan.DefaultLeadInNs(durationS * 1_000_000_000), Is.EqualTo(leadInS * 1_000_000_000));

    [Test]
    public void PlaceOf_RandomOverlappingStretches_EqualsAskingEachOne() =>
        Gen.Select(Gen.Long[0, 100], Gen.Long[0, 12]).Array[0, 20].Sample(
            stretches =>
            {
                var span = new ScoredSpan(10, 95);
                foreach ((long begin, long length) in stretches)
                {
                    span.AddUnusable(begin, begin + length);
                }

                for (long t = 0; t < 115; t++)
                {
                    Place expected = t is < 10 or >= 95 ? Place.Outside
                        : stretches.Any(s => t >= s.Item1 && t < s.Item1 + s.Item2) ? Place.Unusable
                        : Place.Scored;
                    Assert.That(span.PlaceOf(t), Is.EqualTo(expected), $"at {t}");
                }

                return true;
            },
            iter: 2000,
            threads: 2);

    [Test]
    public void AddUnusable_MoreThanFitButOldOnesForgettable_KeepsTheNewest()
    {
        var span = new ScoredSpan(0, 10_000, capacity: 4);
        for (long t = 0; t < 1000; t += 10)
        {
            span.AddUnusable(t, t + 5);
            span.AllowForgettingBefore(t);
        }

        Assert.That(span.OverflowCount, Is.Zero);
        Assert.That((span.PlaceOf(992), span.PlaceOf(982), span.PlaceOf(987)), Is.EqualTo((Place.Unusable, Place.Unusable, Place.Scored)));
    }

    [Test]
    public void AddUnusable_NoRoom_IsCounted()
    {
        var span = new ScoredSpan(0, 10_000, capacity: 1);
        span.AddUnusable(10, 20);
        span.AddUnusable(30, 40);
        Assert.That((span.OverflowCount, span.PlaceOf(15)), Is.EqualTo((1L, Place.Unusable)));
    }
}
