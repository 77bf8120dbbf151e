// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Tests;

public class EventMatcherTests
{
    private const long Ms = 1_000_000;
    private static readonly ScoringOptions s_options = new();

    // The first four cases are worked by hand from the rule of ANSI/AAMI EC57: 150 ms, included; one to one; closest first
    // (rule from memory). The others follow from the tie rule stated in EventMatcher.
    [TestCase("1000 2000", "1150", 1, 1, 0, TestName = "Tally_ExactlyAtTheWindow_Matches")]
    [TestCase("1000 2000", "1151", 0, 2, 1, TestName = "Tally_OneMillisecondBeyondTheWindow_DoesNotMatch")]
    [TestCase("1000", "900 1050", 1, 0, 1, TestName = "Tally_TwoDetectionsOfOneBeat_TakesTheCloser")]
    [TestCase("1000 1200", "1100", 1, 1, 0, TestName = "Tally_OneDetectionBetweenTwoBeats_MatchesOne")]
    [TestCase("", "1000", 0, 0, 1, TestName = "Tally_NoBeat_CountsAnExtra")]
    [TestCase("1000", "", 0, 1, 0, TestName = "Tally_NoDetection_CountsAMiss")]
    [TestCase("1000 1100", "1080 1190", 1, 1, 1, TestName = "Tally_CloserPairFirst_EvenIfThatCostsAMatch")]
    public void Tally_KnownCase_CountsAsByHand(string truthMs, string detectionsMs, int matched, int missed, int extra)
    {
        EventMatcher matcher = Run(truthMs, detectionsMs);
        Assert.That(
            (matcher.Tally.Matched, matcher.Tally.Missed, matcher.Tally.Extra), Is.EqualTo(((long)matched, (long)missed, (long)extra)));
    }

    [Test]
    public void Tally_CloserDetectionTaken_ErrorIsThatOfTheCloser() =>
        Assert.That(Run("1000", "900 1050").Tally.TimingMs.Mean, Is.EqualTo(50).Within(1e-12));

    [Test]
    public void Tally_DetectionHalfwayBetweenTwoBeats_GoesToTheEarlierBeat() =>
        Assert.That(Run("1000 1200", "1100").Tally.TimingMs.Mean, Is.EqualTo(100).Within(1e-12));

    [Test]
    public void Tally_BeatHalfwayBetweenTwoDetections_TakesTheEarlierDetection() =>
        Assert.That(Run("1000", "900 1100").Tally.TimingMs.Mean, Is.EqualTo(-100).Within(1e-12));

    [Test]
    public void Tally_AmbiguousBeat_IsMatchedButNotTimed()
    {
        EventMatcher matcher = Make();
        matcher.AddTruth(1000 * Ms, TruthFlags.Ambiguous);
        matcher.AddDetection(1030 * Ms);
        matcher.Finish();
        Assert.That(matcher.Tally.Matched, Is.EqualTo(1));
        Assert.That(matcher.Tally.TimingMs.Count, Is.Zero);
        Assert.That(matcher.Tally.Histogram.Count, Is.Zero);
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Tally_OptionalBeat_IsNeitherRightNorWrong(bool isDetected)
    {
        EventMatcher matcher = Make();
        matcher.AddTruth(1000 * Ms, TruthFlags.Optional);
        if (isDetected)
        {
            matcher.AddDetection(1030 * Ms);
        }

        matcher.Finish();
        EventTally tally = matcher.Tally;
        Assert.That((tally.Matched, tally.Missed, tally.Extra), Is.EqualTo((0L, 0L, 0L)));
        Assert.That((tally.OptionalMatched, tally.OptionalUnmatched), Is.EqualTo(isDetected ? (1L, 0L) : (0L, 1L)));
    }

    [TestCase(1990, 2010, 1, 0, TestName = "Tally_TruthBeforeTheBorderDetectionInside_CountsByTheTruth")]
    [TestCase(2010, 1990, 0, 1, TestName = "Tally_TruthInsideDetectionBeforeTheBorder_IsNotScored")]
    public void Tally_PairAcrossTheBorderOfAnUnusableStretch_GoesByTheTruth(long truthMs, long detectionMs, long matched, long apart)
    {
        var span = new ScoredSpan(0, 10_000 * Ms);
        span.AddUnusable(2000 * Ms, 3000 * Ms);
        var matcher = new EventMatcher(span, s_options);
        matcher.AddTruth(truthMs * Ms);
        matcher.AddDetection(detectionMs * Ms);
        matcher.Finish();
        EventTally tally = matcher.Tally;
        Assert.That((tally.Matched, tally.UnusableTruth, tally.UnusableDetections), Is.EqualTo((matched, apart, apart)));
        Assert.That((tally.Missed, tally.Extra), Is.EqualTo((0L, 0L)));
    }

    [Test]
    public void Tally_LoneDetectionsInLeadInAndUnusableStretch_AreCountedApart()
    {
        var span = new ScoredSpan(1000 * Ms, 10_000 * Ms);
        span.AddUnusable(2000 * Ms, 3000 * Ms);
        var matcher = new EventMatcher(span, s_options);
        foreach (long ms in new long[] { 500, 999, 1000, 2000, 2999, 3000, 10_000 })
        {
            matcher.AddDetection(ms * Ms);
        }

        matcher.Finish();
        EventTally tally = matcher.Tally;
        Assert.That((tally.OutsideDetections, tally.UnusableDetections, tally.Extra), Is.EqualTo((3L, 2L, 2L)));
    }

    [Test]
    public void AddDetection_LateBySearchBackWithinTheHoldingTime_StillMatches()
    {
        EventMatcher matcher = Make();
        matcher.AddTruth(1000 * Ms);
        matcher.AdvanceTo(12_900 * Ms);
        matcher.AddDetection(1010 * Ms);
        matcher.Finish();
        Assert.That((matcher.Tally.Matched, matcher.LateCount), Is.EqualTo((1L, 0L)));
    }

    [Test]
    public void AddDetection_LaterThanTheHoldingTime_IsCountedAsLateAndAsExtra()
    {
        EventMatcher matcher = Make();
        matcher.AddTruth(1000 * Ms);
        matcher.AdvanceTo(20_000 * Ms);
        matcher.AddDetection(1010 * Ms);
        matcher.Finish();
        Assert.That((matcher.Tally.Matched, matcher.Tally.Missed, matcher.Tally.Extra, matcher.LateCount), Is.EqualTo((0L, 1L, 1L, 1L)));
    }

    [Test]
    public void AddDetection_BabblingDetectorOfEverySample_LosesNoEventAndFindsEveryBeat()
    {
        EventMatcher matcher = Make();
        const int Seconds = 600;
        for (long i = 0; i < Seconds * 250; i++)
        {
            if (i % 250 == 125)
            {
                matcher.AddTruth(i * 4 * Ms);
            }

            matcher.AddDetection(i * 4 * Ms);
            matcher.AdvanceTo(i * 4 * Ms);
        }

        matcher.Finish();
        Assert.That(matcher.Tally.Matched, Is.EqualTo(Seconds));
        Assert.That(matcher.Tally.Extra, Is.EqualTo(Seconds * 249));
        Assert.That(matcher.EarlyClosingCount, Is.Positive, "1024 waiting detections do not last 12 s at 250 a second");
    }

    [Test]
    public void Constructor_WindowOfNothing_SaysWhatIsAllowed() =>
        Assert.That(
            () => new EventMatcher(new ScoredSpan(0, 1), new ScoringOptions { WindowNs = 0 }),
            Throws.InstanceOf<ArgumentOutOfRangeException>().With.Message.Contains("WindowNs must be 1 to"));

    private static EventMatcher Make() => new(new ScoredSpan(0, 1_000_000 * Ms), s_options);

    private static EventMatcher Run(string truthMs, string detectionsMs)
    {
        EventMatcher matcher = Make();
        Array.ForEach(Times(truthMs), t => matcher.AddTruth(t));
        Array.ForEach(Times(detectionsMs), matcher.AddDetection);
        matcher.Finish();
        return matcher;
    }

    private static long[] Times(string text) =>
        [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(t => long.Parse(t, System.Globalization.CultureInfo.InvariantCulture) * Ms)];
}
