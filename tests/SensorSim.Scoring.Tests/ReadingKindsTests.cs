// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

/// <summary>Readings beside heart rate of the ECG and arrival of a beat; true values by hand.</summary>
public class ReadingKindsTests
{
    // Feet at 20.2, 21.1, 22.0 and 22.6 s, 60 × 3 / 2.4 s = 75 bpm; R peaks within the same window (20.9 to 22.4 s) would give 80 bpm. A beat
    // without a pulse counts where its foot would be: at 22.0 s without it 50 bpm, as the last at its R peak 60 × 3 / 2.2 s.
    [TestCase(-1)]
    [TestCase(21_800)]
    [TestCase(22_400)]
    public void HeartRate_OfTheLight_CountsBeatsWhereTheirFeetAre(long withoutPulseMs)
    {
        Scorer scorer = New();
        foreach (long ms in new long[] { 19_300, 20_000, 20_900, 21_800, 22_400, 23_200 })
        {
            if (ms == withoutPulseMs)
            {
                scorer.AddTruth(RPeak(ms * Ms));
                scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.NoPulse, ms * Ms));
            }
            else
            {
                Beat(scorer, ms, 200);
            }
        }

        scorer.AddMark(Reading(ChannelName.Infrared, MarkKind.HeartRateBpm, 20_200, 22_600, 76));
        ReadingScore row = Row(scorer, ChannelName.Infrared, MarkKind.HeartRateBpm);
        Assert.That(row.Bias, Is.EqualTo(1.0).Within(1e-9));
    }

    [Test]
    public void HeartRate_OfTheLightWithoutTrueFeet_IsComparedWithRPeaks()
    {
        Scorer scorer = New();
        foreach (long ms in new long[] { 20_000, 20_500, 21_000 })
        {
            scorer.AddTruth(RPeak(ms * Ms));
        }

        scorer.AddMark(Reading(ChannelName.Infrared, MarkKind.HeartRateBpm, 20_000, 21_000, 118));
        Assert.That(Row(scorer, ChannelName.Infrared, MarkKind.HeartRateBpm).Bias, Is.EqualTo(-2.0).Within(1e-9));
    }

    // 8 s of beats at 1 s in the window from 20.5 to 28.5 s: R peaks from 21 to 28 s, 60 bpm; the rule of heart rates holds.
    [TestCase(66.0, 0)]
    [TestCase(66.1, 1)]
    public void HeartRateFused_WindowOfEightSeconds_IsComparedWithTheBeatsInside(double reading, long wrong)
    {
        Scorer scorer = WithBeats();
        scorer.AddMark(Reading(ChannelName.Ecg, MarkKind.HeartRateFusedBpm, 20_500, 28_500, reading));
        ReadingScore row = Row(scorer, ChannelName.Ecg, MarkKind.HeartRateFusedBpm);
        Assert.That(row.Bias, Is.EqualTo(reading - 60).Within(1e-9));
        Assert.That(row.Wrong, Is.EqualTo(wrong));
    }

    [Test]
    public void HeartRateFused_OneSignalUnusable_StillHasTheOther()
    {
        Scorer scorer = WithBeats();
        scorer.AddUnusable(ChannelName.Ecg, 20 * Second, 40 * Second);
        scorer.AddUnusable(ChannelName.Infrared, 30 * Second, 35 * Second);
        scorer.AddMark(Reading(ChannelName.Ecg, MarkKind.HeartRateFusedBpm, 17_000, 25_000, 60));
        scorer.AddMark(Reading(ChannelName.Ecg, MarkKind.HeartRateFusedBpm, 25_000, 33_000, 60));
        ReadingScore row = Row(scorer, ChannelName.Ecg, MarkKind.HeartRateFusedBpm);
        Assert.That((row.Count, row.InUnusableCount, row.UsableS), Is.EqualTo((1L, 1L, 46.0)), "51 s are scored, 5 s have neither");
    }

    // Saturations 98, 95 and 89 % in the window: mean 94 %; 4 points are allowed.
    [TestCase(ChannelName.Infrared, 97.9, 0)]
    [TestCase(ChannelName.Infrared, 98.1, 1)]
    [TestCase(ChannelName.Ecg, 90.1, 0)]
    [TestCase(ChannelName.Ecg, 89.9, 1)]
    public void Spo2_Window_IsComparedWithTheMeanOfItsBeats(ChannelName channel, double reading, long wrong)
    {
        Scorer scorer = New();
        Value(scorer, ChannelName.Infrared, MarkKind.Spo2Percent, (19_900, 70), (20_000, 98), (21_000, 95), (22_000, 89), (22_100, 70));
        scorer.AddMark(Reading(channel, MarkKind.Spo2Percent, 20_000, 22_000, reading));
        ReadingScore row = Row(scorer, channel, MarkKind.Spo2Percent);
        Assert.That(row.Bias, Is.EqualTo(reading - 94).Within(1e-6));
        Assert.That((row.Count, row.Wrong), Is.EqualTo((1L, wrong)));
    }

    [Test]
    public void PerfusionIndex_Window_IsComparedWithItsOwnChannel()
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Red), new ChannelDelay(ChannelName.Infrared)], 60 * Second);
        Value(scorer, ChannelName.Red, MarkKind.PerfusionIndexPercent, (20_000, 1.0), (21_000, 1.4));
        Value(scorer, ChannelName.Infrared, MarkKind.PerfusionIndexPercent, (20_000, 2.0), (21_000, 2.4));
        scorer.AddMark(Reading(ChannelName.Infrared, MarkKind.PerfusionIndexPercent, 20_000, 21_000, 2.3));
        scorer.AddMark(Reading(ChannelName.Red, MarkKind.PerfusionIndexPercent, 20_000, 21_000, 1.6));
        ScoreReport report = scorer.Finish();
        ReadingScore infrared = report.FindReading(ChannelName.Infrared, MarkKind.PerfusionIndexPercent)!;
        ReadingScore red = report.FindReading(ChannelName.Red, MarkKind.PerfusionIndexPercent)!;
        Assert.That(infrared.Bias, Is.EqualTo(0.1).Within(1e-6));
        Assert.That(red.Bias, Is.EqualTo(0.4).Within(1e-6));
        Assert.That((infrared.Wrong, red.Wrong), Is.EqualTo((0L, 1L)), "a quarter of 1.2 is 0.3");
    }

    // Arrivals 200, 210, 230 and 400 ms in 30 s: median 220 ms; the fifth lies before.
    [TestCase(true, 229.9, 0)]
    [TestCase(true, 230.1, 1)]
    [TestCase(false, 209.9, 1)]
    public void ArrivalSpot_Window_IsComparedWithTheMedian(bool hasWindow, double reading, long wrong)
    {
        Scorer scorer = New();
        Value(scorer, ChannelName.Infrared, MarkKind.PatMs, (9_000, 900), (10_000, 400), (20_000, 200), (30_000, 210), (39_000, 230), (41_000, 900));
        TimedMark mark = Reading(ChannelName.Infrared, MarkKind.ArrivalSpotMs, 10_000, 40_000, reading);
        scorer.AddMark(hasWindow ? mark : mark with { WindowBeginNs = null });
        ReadingScore row = Row(scorer, ChannelName.Infrared, MarkKind.ArrivalSpotMs);
        Assert.That(row.Bias, Is.EqualTo(reading - 220).Within(1e-6));
        Assert.That(row.Wrong, Is.EqualTo(wrong));
    }

    [Test]
    public void Respiration_TruthFromWhoeverKnows_IsComparedWithItsMean()
    {
        Scorer scorer = New();
        Value(scorer, ChannelName.Ecg, MarkKind.RespirationRateBpm, (20_000, 12), (30_000, 15), (40_000, 18));
        scorer.AddMark(Reading(ChannelName.Infrared, MarkKind.RespirationRateBpm, 15_000, 45_000, 18.1));
        ReadingScore row = Row(scorer, ChannelName.Infrared, MarkKind.RespirationRateBpm);
        Assert.That(row.Bias, Is.EqualTo(3.1).Within(1e-6));
        Assert.That(row.Wrong, Is.EqualTo(1));
    }

    [TestCase(MarkKind.RespirationRateBpm)]
    [TestCase(MarkKind.Spo2Percent)]
    [TestCase(MarkKind.PerfusionIndexPercent)]
    [TestCase(MarkKind.ArrivalSpotMs)]
    public void Reading_WithoutSuchTruth_CannotBeJudged(MarkKind kind)
    {
        Scorer scorer = WithBeats();
        scorer.AddMark(Reading(ChannelName.Infrared, kind, 20_000, 28_000, 15));
        ReadingScore row = Row(scorer, ChannelName.Infrared, kind);
        Assert.That((row.Count, row.UnjudgedCount, row.Wrong), Is.EqualTo((0L, 1L, 0L)));
    }

    [Test]
    public void Spo2_NoBeatInTheWindow_IsWrong()
    {
        Scorer scorer = New();
        Value(scorer, ChannelName.Infrared, MarkKind.Spo2Percent, (20_000, 97), (40_000, 97));
        scorer.AddMark(Reading(ChannelName.Infrared, MarkKind.Spo2Percent, 25_000, 33_000, 97));
        ReadingScore row = Row(scorer, ChannelName.Infrared, MarkKind.Spo2Percent);
        Assert.That((row.Count, row.NothingThereCount, row.Wrong), Is.EqualTo((0L, 1L, 1L)));
    }

    [Test]
    public void WrongReading_OneOfThree_IsToldWithItsTime()
    {
        Scorer scorer = WithBeats();
        var told = new List<long>();
        scorer.WrongReading = mark => told.Add(mark.TimeNs / Ms);
        scorer.AddMark(Reading(ChannelName.Ecg, MarkKind.HeartRateBpm, 20_000, 28_000, 60));
        scorer.AddMark(Reading(ChannelName.Ecg, MarkKind.HeartRateBpm, 21_000, 29_000, 80));
        scorer.AddMark(Reading(ChannelName.Ecg, MarkKind.HeartRateBpm, 22_000, 30_000, 61));
        scorer.Finish();
        Assert.That(told, Is.EqualTo(new[] { 29_000L }));
    }

    // Pressures of 110 at 21 s, 120 at 22 s and 133 at 23 s within the window, 90 before it: their mean is 121, told at the R peak in any channel.
    [TestCase(MarkKind.SystolicMmhg, 136.0, 0)]
    [TestCase(MarkKind.SystolicMmhg, 136.1, 1)]
    [TestCase(MarkKind.DiastolicMmhg, 106.0, 0)]
    [TestCase(MarkKind.DiastolicMmhg, 105.9, 1)]
    public void Pressure_Window_IsComparedWithTheMeanOfItsBeats(MarkKind kind, double reading, long wrong)
    {
        Scorer scorer = New();
        foreach ((long ms, double mmhg) in new (long, double)[] { (20_000, 90), (21_000, 110), (22_000, 120), (23_000, 133) })
        {
            scorer.AddTruth(Truth(ChannelName.Infrared, kind, ms * Ms, mmhg));

            // The other pressure is another.
            scorer.AddTruth(Truth(ChannelName.Infrared, kind == MarkKind.SystolicMmhg ? MarkKind.DiastolicMmhg : MarkKind.SystolicMmhg, ms * Ms, 60));
        }

        scorer.AddMark(Reading(ChannelName.Infrared, kind, 20_500, 23_500, reading));
        ReadingScore row = Row(scorer, ChannelName.Infrared, kind);
        Assert.That(row.Bias, Is.EqualTo(reading - 121).Within(1e-9));
        Assert.That(row.Wrong, Is.EqualTo(wrong));
    }

    [TestCase(MarkKind.HeartRateFusedBpm, 120, 12)]
    [TestCase(MarkKind.ArrivalSpotMs, 250, 10)]
    [TestCase(MarkKind.Spo2Percent, 70, 4)]
    [TestCase(MarkKind.PerfusionIndexPercent, 0.1, 0.05)]
    [TestCase(MarkKind.PerfusionIndexPercent, 2, 0.5)]
    [TestCase(MarkKind.RespirationRateBpm, 30, 3)]
    [TestCase(MarkKind.SystolicMmhg, 120, 15)]
    [TestCase(MarkKind.DiastolicMmhg, 80, 15)]
    public void LargestGoodError_Kind_FollowsTheRule(MarkKind kind, double truth, double limit) =>
        Assert.That(ReadingGate.LargestGoodError(kind, truth), Is.EqualTo(limit).Within(1e-12));

    [Test]
    public void LargestGoodError_KindWithoutRule_Throws() =>
        Assert.That(() => ReadingGate.LargestGoodError(MarkKind.SdnnMs, 50), Throws.InstanceOf<ArgumentOutOfRangeException>());

    [Test]
    public void TimedValues_MoreThanFit_ForgetTheOldestAndSaySo()
    {
        var values = new TimedValues(8);
        for (int i = 0; i < 20; i++)
        {
            // In pairs that come the wrong way round.
            values.Add((i ^ 1) * Second, i ^ 1);
        }

        Assert.That(values.TryMean(17 * Second, 19 * Second, out double mean), Is.True);
        Assert.That((mean, values.Total), Is.EqualTo((18.0, 20L)));
        Assert.That(values.KnownFromNs, Is.InRange(11 * Second, 14 * Second));
        Assert.That(values.TryMedian(16 * Second, 19 * Second, out double median), Is.True);
        Assert.That(median, Is.EqualTo(17.5));
    }

    private static Scorer New() => new(Format(), 60 * Second);

    private static Scorer WithBeats()
    {
        Scorer scorer = New();
        for (int beat = 1; beat < 60; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
        }

        return scorer;
    }

    private static void Beat(Scorer scorer, long rMs, double arrivalMs)
    {
        long footNs = (rMs * Ms) + (long)(arrivalMs * Ms);
        scorer.AddTruth(RPeak(rMs * Ms, rMs));
        scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PulseFootTangent, footNs, beatId: rMs));
        scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PatMs, footNs, arrivalMs, rMs));
    }

    private static void Value(Scorer scorer, ChannelName channel, MarkKind kind, params (long Ms, double Value)[] rows)
    {
        foreach ((long ms, double value) in rows)
        {
            scorer.AddTruth(Truth(channel, kind, ms * Ms, value, ms));
        }
    }

    private static TimedMark Reading(ChannelName channel, MarkKind kind, long beginMs, long endMs, double value) => new()
    {
        Channel = channel, Kind = kind, Value = value, WindowBeginNs = beginMs * Ms, TimeNs = endMs * Ms, EmittedTimeNs = (endMs + 100) * Ms,
    };

    private static ReadingScore Row(Scorer scorer, ChannelName channel, MarkKind kind) => scorer.Finish().FindReading(channel, kind)!;
}
