// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

public class ReadingTests
{
    [Test]
    public void HeartRate_IrregularBeats_IsComparedWithTheSameStatistic()
    {
        // R peaks at 20.0, 20.8, 21.8, 22.4 s: 60 × 3 / 2.4 s = 75 bpm; beats before and after must not count.
        var scorer = new Scorer(Format(), 60 * Second);
        foreach (long ms in new long[] { 19_500, 20_000, 20_800, 21_800, 22_400, 22_900 })
        {
            scorer.AddTruth(RPeak(ms * Ms));
        }

        scorer.AddMark(HeartRate(22_400 / 4, 2_400 / 4, 76.5));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;
        Assert.That((row.Count, row.Bias, row.Rms, row.Wrong, row.Unit), Is.EqualTo((1L, (double?)1.5, (double?)1.5, 0L, "bpm")));
    }

    // True R peaks at 19, 20, 20.5, 21, 22 and 23.5 s. With all of 20 s to 22 s the rate is 60 × 3 / 2 s = 90 bpm; without the
    // two at the ends it is 60 / 0.5 s = 120 bpm; with the two outside it would be 60 × 5 / 4.5 s.
    [TestCase(0, 90)]
    [TestCase(75, 90)]
    [TestCase(76, 120)]
    [TestCase(-75, 90)]
    public void HeartRate_DetectorsBeatsOffByUpTo75Milliseconds_TruthIsOfTheNearestBeats(long inwardMs, double rateBpm)
    {
        var scorer = new Scorer(Format(), 60 * Second);
        foreach (long ms in new long[] { 19_000, 20_000, 20_500, 21_000, 22_000, 23_500 })
        {
            scorer.AddTruth(RPeak(ms * Ms));
        }

        scorer.AddMark(new TimedMark
        {
            Channel = ChannelName.Ecg, Kind = MarkKind.HeartRateBpm, Value = rateBpm,
            TimeNs = (22_000 - inwardMs) * Ms, WindowBeginNs = (20_000 + inwardMs) * Ms,
        });
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;
        Assert.That(row.Bias, Is.EqualTo(0.0).Within(1e-9));
    }

    // max(5 bpm, 10 %): the accuracy rule of heart-rate meter standards, from memory.
    [TestCase(MarkKind.HeartRateBpm, 40, 5)]
    [TestCase(MarkKind.HeartRateBpm, 50, 5)]
    [TestCase(MarkKind.HeartRateBpm, 120, 12)]
    [TestCase(MarkKind.ArrivalTimeMs, 250, 10)]
    public void LargestGoodError_Kind_FollowsTheRule(MarkKind kind, double truth, double limit) =>
        Assert.That(ReadingGate.LargestGoodError(kind, truth), Is.EqualTo(limit).Within(1e-12));

    [TestCase(60.0 + 6.0, 0)]
    [TestCase(60.0 + 6.001, 1)]
    [TestCase(60.0 - 6.001, 1)]
    public void Wrong_HeartRateAroundTheLimit_CountsOnlyWhatIsBeyond(double reading, long wrong)
    {
        Scorer scorer = WithRegularBeats();
        scorer.AddMark(HeartRate(30 * 250, 8 * 250, reading));
        Assert.That(scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!.Wrong, Is.EqualTo(wrong));
    }

    [Test]
    public void Arrival_PairedWithABeat_IsComparedWithThatBeatsArrival()
    {
        Scorer scorer = WithRegularBeats();
        scorer.AddMark(Arrival((20 * 100) + 22, (20 * 250) + 1, 223));
        scorer.AddMark(Arrival((21 * 100) + 22, 21 * 250, 218));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;

        // True arrivals are 200 + beat: 220 and 221 ms, so the errors are +3 and -3.
        Assert.That((row.Count, row.Wrong), Is.EqualTo((2L, 0L)));
        Assert.That(row.Bias, Is.EqualTo(0.0).Within(1e-9));
        Assert.That(row.Sd, Is.EqualTo(3 * Math.Sqrt(2)).Within(1e-9));
        // The second of two in the bin from 2.9 to 3 ms: at three quarters of it.
        Assert.That(row.P95Abs, Is.EqualTo(2.975).Within(1e-9));
        Assert.That(row.LatencyMeanMs, Is.EqualTo(100.0).Within(1e-9));
        Assert.That(row.FirstReadingS, Is.EqualTo(20.32).Within(1e-9));
    }

    [Test]
    public void Arrival_DeclaredDelays_DoNotHideTheBeat()
    {
        // Both channels lag by 300 ms, twice the window: the R peak is found only with the delay taken off.
        Scorer scorer = WithRegularBeats(delayNs: 300 * Ms);
        scorer.AddMark(Arrival((20 * 100) + 52, (20 * 250) + 75, 220));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        Assert.That((row.Count, row.Bias), Is.EqualTo((1L, (double?)0.0)));
    }

    [Test]
    public void Arrival_OffByMoreThanTenMilliseconds_IsWrong()
    {
        Scorer scorer = WithRegularBeats();
        scorer.AddMark(Arrival((20 * 100) + 22, 20 * 250, 230));
        scorer.AddMark(Arrival((21 * 100) + 22, 21 * 250, 231.001));
        Assert.That(scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!.Wrong, Is.EqualTo(1));
    }

    [Test]
    public void Arrival_OfNoBeat_IsWrongWithoutEnteringTheErrors()
    {
        Scorer scorer = WithRegularBeats();
        scorer.AddMark(Arrival((20 * 100) + 70, (20 * 250) + 125, 220));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        Assert.That((row.Count, row.Wrong, row.NothingThereCount, row.WrongShare), Is.EqualTo((0L, 1L, 1L, (double?)1)));
        Assert.That((row.Bias, row.Sd, row.Rms, row.P95Abs), Is.EqualTo(((double?)null, (double?)null, (double?)null, (double?)null)));
    }

    [Test]
    public void Arrival_TruthWithoutArrivals_CannotBeJudged()
    {
        var scorer = new Scorer(Format(), 60 * Second);
        scorer.AddTruth(RPeak(20 * Second));
        scorer.AddMark(Arrival((20 * 100) + 22, 20 * 250, 220));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        Assert.That((row.UnjudgedCount, row.Wrong, row.Count), Is.EqualTo((1L, 0L, 0L)));
    }

    [Test]
    public void HeartRate_InUnusableStretch_IsWrongAndInLeadInIsNot()
    {
        Scorer scorer = WithRegularBeats();
        scorer.AddUnusable(ChannelName.Ecg, 25 * Second, 27 * Second);
        scorer.AddMark(HeartRate(26 * 250, 8 * 250, 60));
        scorer.AddMark(HeartRate(7 * 250, 4 * 250, 200));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;
        Assert.That((row.Wrong, row.InUnusableCount, row.OutsideCount, row.Count), Is.EqualTo((1L, 1L, 1L, 0L)));
    }

    [Test]
    public void HeartRate_OptionalBeatInTheWindow_CannotBeJudged()
    {
        Scorer scorer = WithRegularBeats();
        scorer.AddTruth(RPeak((25 * Second) + (500 * Ms), 999, TruthFlags.Optional));
        scorer.AddMark(HeartRate(26 * 250, 8 * 250, 60));
        scorer.AddMark(HeartRate(40 * 250, 8 * 250, 60));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;
        Assert.That((row.UnjudgedCount, row.Count), Is.EqualTo((1L, 1L)));
    }

    private static Scorer WithRegularBeats(long delayNs = 0)
    {
        var scorer = new Scorer(Format(delayNs, delayNs), 60 * Second);
        for (int beat = 1; beat < 60; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PatMs, beat * Second, 200 + beat, beat));
        }

        return scorer;
    }
}
