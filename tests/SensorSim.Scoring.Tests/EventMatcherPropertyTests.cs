// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Tests;

/// <summary>Streaming in any order and any steps gives what matching the whole record at once gives.</summary>
public class EventMatcherPropertyTests
{
    private const long Ms = 1_000_000;
    private const long WindowNs = 150 * Ms;
    private const long HoldingNs = 2000 * Ms;

    // Times on a coarse grid, so that equal distances and equal times are frequent; dense, so that chains are long.
    private static readonly Gen<FedEvent[]> s_events =
        from stepMs in Gen.Int[1, 40]
        from events in Gen.Select(Gen.Bool, Gen.Int[0, 100], Gen.Int[0, 2000], Gen.Int[0, 7])
            .Select((isTruth, place, lateMs, flags) => new FedEvent(
                isTruth, place * stepMs * Ms, lateMs * Ms, isTruth && flags < 4 ? (TruthFlags)flags : TruthFlags.None))
            .Array[0, 60]
        select events.OrderBy(e => e.FedAtNs).ToArray();

    [Test]
    public void Tally_RandomEventsAnyLateness_EqualsClosestFirstOverTheWholeRecord() =>
        s_events.Sample(
            fed =>
            {
                ScoredSpan span = MakeSpan();
                var matcher = new EventMatcher(span, new ScoringOptions { WindowNs = WindowNs, HoldingNs = HoldingNs });
                foreach (FedEvent e in fed)
                {
                    matcher.AdvanceTo(e.FedAtNs);
                    Feed(matcher, e);
                }

                matcher.Finish();
                Assert.That(matcher.LateCount + matcher.EarlyClosingCount, Is.Zero);
                AssertSame(matcher.Tally, TallyByRule(fed, span));
                return true;
            },
            iter: 20_000,
            threads: 2);

    [Test]
    public void Tally_DetectionsAllAfterTruth_EqualsClosestFirstOverTheWholeRecord() =>
        s_events.Sample(
            events =>
            {
                FedEvent[] fed = [.. events.OrderByDescending(e => e.IsTruth)];
                ScoredSpan span = MakeSpan();
                var matcher = new EventMatcher(span, new ScoringOptions { WindowNs = WindowNs });
                Array.ForEach(fed, e => Feed(matcher, e));
                matcher.Finish();
                AssertSame(matcher.Tally, TallyByRule(fed, span));
                return true;
            },
            iter: 5_000,
            threads: 2);

    [Test]
    public void Tally_CapacityFarTooSmall_CountsEveryEventOnceAndSaysSo() =>
        s_events.Where(e => e.Length > 30).Sample(
            fed =>
            {
                var matcher = new EventMatcher(
                    new ScoredSpan(long.MinValue / 4, long.MaxValue / 4),
                    new ScoringOptions { WindowNs = WindowNs, TruthCapacity = 4, DetectionCapacity = 4 });
                Array.ForEach(fed, e => Feed(matcher, e with { Flags = TruthFlags.None }));
                matcher.Finish();
                EventTally tally = matcher.Tally;
                Assert.That(tally.Matched + tally.Missed, Is.EqualTo(fed.Count(e => e.IsTruth)));
                Assert.That(tally.Matched + tally.Extra, Is.EqualTo(fed.Count(e => !e.IsTruth)));
                Assert.That(matcher.EarlyClosingCount, Is.Positive);
                return true;
            },
            iter: 2_000,
            threads: 2);

    private static ScoredSpan MakeSpan()
    {
        var span = new ScoredSpan(300 * Ms, 3000 * Ms);
        span.AddUnusable(700 * Ms, 1100 * Ms);
        return span;
    }

    private static void Feed(EventMatcher matcher, FedEvent e)
    {
        if (e.IsTruth)
        {
            matcher.AddTruth(e.TimeNs, e.Flags);
        }
        else
        {
            matcher.AddDetection(e.TimeNs);
        }
    }

    private sealed class Expected
    {
        public long Matched, Missed, Extra, OptionalMatched, OptionalUnmatched;
        public long[] Truth = new long[3];
        public long[] Detections = new long[3];
        public List<long> ErrorsNs = [];
    }

    private static Expected TallyByRule(FedEvent[] fed, ScoredSpan span)
    {
        int[] partners = MatchingTwin.Partners(fed, WindowNs);
        var expected = new Expected();
        for (int i = 0; i < fed.Length; i++)
        {
            bool isPaired = partners[i] >= 0;
            if (!fed[i].IsTruth)
            {
                // The place of a detection is that of its truth, when it has one.
                Place place = span.PlaceOf(isPaired ? fed[partners[i]].TimeNs : fed[i].TimeNs);
                expected.Detections[(int)place]++;
                expected.Extra += !isPaired && place == Place.Scored ? 1 : 0;
                continue;
            }

            Place at = span.PlaceOf(fed[i].TimeNs);
            expected.Truth[(int)at]++;
            if (at != Place.Scored)
            {
                continue;
            }

            if (fed[i].Flags.HasFlag(TruthFlags.Optional))
            {
                expected.OptionalMatched += isPaired ? 1 : 0;
                expected.OptionalUnmatched += isPaired ? 0 : 1;
                continue;
            }

            expected.Matched += isPaired ? 1 : 0;
            expected.Missed += isPaired ? 0 : 1;
            if (isPaired && !fed[i].Flags.HasFlag(TruthFlags.Ambiguous))
            {
                expected.ErrorsNs.Add(fed[partners[i]].TimeNs - fed[i].TimeNs);
            }
        }

        return expected;
    }

    private static void AssertSame(EventTally tally, Expected expected)
    {
        Assert.That(tally.Matched, Is.EqualTo(expected.Matched), "matched");
        Assert.That(tally.Missed, Is.EqualTo(expected.Missed), "missed");
        Assert.That(tally.Extra, Is.EqualTo(expected.Extra), "extra");
        Assert.That(tally.OptionalMatched, Is.EqualTo(expected.OptionalMatched), "optional matched");
        Assert.That(tally.OptionalUnmatched, Is.EqualTo(expected.OptionalUnmatched), "optional unmatched");
        Assert.That(tally.OutsideTruth, Is.EqualTo(expected.Truth[(int)Place.Outside]), "outside truth");
        Assert.That(tally.UnusableTruth, Is.EqualTo(expected.Truth[(int)Place.Unusable]), "unusable truth");
        Assert.That(tally.OutsideDetections, Is.EqualTo(expected.Detections[(int)Place.Outside]), "outside detections");
        Assert.That(tally.UnusableDetections, Is.EqualTo(expected.Detections[(int)Place.Unusable]), "unusable detections");
        Assert.That(tally.TimingMs.Count, Is.EqualTo(expected.ErrorsNs.Count), "timed");
        for (int bin = -tally.Histogram.BinsPerSide; bin < tally.Histogram.BinsPerSide; bin++)
        {
            long low = bin * 100_000L;
            long count = expected.ErrorsNs.Count(e => bin >= 0 ? (e > low || (bin == 0 && e == 0)) && e <= low + 100_000 : e >= low && e < low + 100_000);
            if (tally.Histogram.CountIn(bin) != count)
            {
                Assert.That(tally.Histogram.CountIn(bin), Is.EqualTo(count), $"bin {bin}");
            }
        }
    }
}
