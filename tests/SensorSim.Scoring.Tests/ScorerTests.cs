// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

public class ScorerTests
{
    [Test]
    public void Finish_DetectionsHalfASampleLate_GiveTheBiasAndNoSpread()
    {
        var scorer = new Scorer(Format(), 60 * Second);
        FeedBeats(scorer, beats: 60, fraction: 128);
        ScoreReport report = scorer.Finish();
        EventScore row = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;

        // Beats at 1, 2, ... 60 s; scored are 8 s to 58 s: the lead-in of a minute is 8 s, the last second is left out.
        Assert.That((row.ReferenceCount, row.Matched, row.Missed, row.Extra), Is.EqualTo((51L, 51L, 0L, 0L)));
        Assert.That((row.OutsideTruth, row.OutsideDetections), Is.EqualTo((9L, 9L)));
        Assert.That(row.TimingBiasMs, Is.EqualTo(2.0).Within(1e-9));
        Assert.That(row.TimingSdMs, Is.EqualTo(0.0).Within(1e-9));
        // Rank 49 of 51 in the bin from 1.9 to 2 ms: (49 − ½)/51 of it.
        Assert.That(row.TimingP95Ms, Is.EqualTo(1.9 + (0.1 * 48.5 / 51)).Within(1e-9));
        Assert.That((row.Sensitivity, row.PositivePredictivity, row.F1), Is.EqualTo(((double?)1, (double?)1, (double?)1)));
        Assert.That(row.SensitivityLow, Is.EqualTo(51 / (51 + 3.8414588)).Within(1e-6), "Wilson at x = n is n / (n + z²)");
        Assert.That((report.ScoredBeginNs, report.ScoredEndNs, report.IsExact), Is.EqualTo((8 * Second, 59 * Second, true)));
    }

    [Test]
    public void Finish_DeclaredDelay_IsTakenOffAndReported()
    {
        // The detections stand 40 ms after the body's beats, and the chain declares 40 ms.
        var scorer = new Scorer(Format(ecgDelayNs: 40 * Ms), 60 * Second);
        for (int beat = 1; beat <= 60; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddMark(EcgMark((beat * 250) + 10));
        }

        EventScore row = scorer.Finish().Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That((row.TimingBiasMs, row.DeclaredDelayMs), Is.EqualTo(((double?)0.0, 40.0)));
    }

    [Test]
    public void Finish_SilentDetector_ShowsExpectedRowsAsMissedAndNoOthers()
    {
        var scorer = new Scorer(Format(), 60 * Second);
        for (int beat = 1; beat <= 60; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddTruth(Truth(ChannelName.Ecg, MarkKind.TPeak, (beat * Second) + (300 * Ms)));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PulseFootTangent, (beat * Second) + (200 * Ms)));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.SystolicPeak, (beat * Second) + (330 * Ms)));
            scorer.AddTruth(Truth(ChannelName.Green, MarkKind.PulseFootTangent, (beat * Second) + (200 * Ms)));
        }

        ScoreReport report = scorer.Finish();
        Assert.That(
            report.Scores.Select(s => (s.Channel, s.Kind, s.Missed, s.PositivePredictivity)),
            Is.EqualTo(new[]
            {
                (ChannelName.Ecg, MarkKind.RPeak, 51L, (double?)null),
                (ChannelName.Infrared, MarkKind.PulseFootTangent, 51L, (double?)null),
            }));
        Assert.That(report.ForeignTruthCount, Is.EqualTo(60), "green is not in the stream");
    }

    [Test]
    public void Finish_DetectorReportsAnotherKind_ThatRowShowsToo()
    {
        var scorer = new Scorer(Format(), 60 * Second);
        scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.SystolicPeak, 20 * Second));
        scorer.AddMark(new Mark { Channel = Infrared, Kind = MarkKind.SystolicPeak, Sample = 2001 });
        scorer.AddMark(new Mark { Channel = Infrared, Kind = MarkKind.GateOpen, Sample = 2001 });
        ScoreReport report = scorer.Finish();
        Assert.That(report.Find(ChannelName.Infrared, MarkKind.SystolicPeak)!.TimingBiasMs, Is.EqualTo(10.0).Within(1e-9));
        Assert.That((report.Scores.Count, report.UnscoredMarkCount), Is.EqualTo((1, 1L)));
    }

    [Test]
    public void AddUnusable_StretchOfOneChannel_LeavesTheOtherScored()
    {
        var scorer = new Scorer(Format(infraredDelayNs: 30 * Ms), 60 * Second);

        // In device time of the channel: the beat of body time 20 s shows at 20.03 s.
        scorer.AddUnusable(ChannelName.Infrared, (20 * Second) + (30 * Ms), (25 * Second) + (30 * Ms));
        for (int beat = 1; beat <= 60; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PulseFootTangent, beat * Second));
        }

        ScoreReport report = scorer.Finish();
        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.Missed, Is.EqualTo(51));
        EventScore feet = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        Assert.That((feet.Missed, feet.UnusableTruth), Is.EqualTo((46L, 5L)), "20 s to 24 s, the end not included");
    }

    [Test]
    public void ScoreAll_SameRowsFromLists_EqualsStreaming()
    {
        var truth = new List<TruthEvent>();
        var marks = new List<TimedMark>();
        StreamFormat format = Format(ecgDelayNs: 8 * Ms);
        var streaming = new Scorer(format, 600 * Second);
        for (int beat = 1; beat <= 700; beat++)
        {
            truth.Add(RPeak(beat * 850 * Ms, beat));
            Mark mark = EcgMark((beat * 850 / 4) + (beat % 7), (byte)(beat * 37));
            marks.Add(TimedMark.From(mark, format));
            streaming.AddTruth(truth[^1]);
            streaming.AddMark(mark);
            streaming.AdvanceTo(beat * 850 * Ms);
        }

        ScoreReport offline = new Scorer([new ChannelDelay(ChannelName.Ecg, 8 * Ms)], 600 * Second).ScoreAll(truth, marks);
        EventScore a = offline.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        EventScore b = streaming.Finish().Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(a.Matched, Is.GreaterThan(600));
        Assert.That((a.Counts, a.TimingBiasMs, a.TimingSdMs, a.TimingP95Ms), Is.EqualTo((b.Counts, b.TimingBiasMs, b.TimingSdMs, b.TimingP95Ms)));
    }

    [Test]
    public void Feed_AfterWarmUp_AllocatesNothing()
    {
        var scorer = new Scorer(Format(), 100_000 * Second);
        FeedDay(scorer, 1, 1000);
        long before = GC.GetAllocatedBytesForCurrentThread();
        FeedDay(scorer, 1000, 90_000);
        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
        ScoreReport report = scorer.Finish();
        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.Extra, Is.Zero);
        Assert.That(report.FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!.Count, Is.GreaterThan(80_000));
        Assert.That(report.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!.Count, Is.GreaterThan(80_000));
        Assert.That(report.IsExact, Is.True);
    }

    [Test]
    public void Finish_AskedTwice_GivesTheSame()
    {
        var scorer = new Scorer(Format(), 60 * Second);
        FeedBeats(scorer, 60, 10);
        EventScore first = scorer.Finish().Scores[0];
        EventScore second = scorer.Finish().Scores[0];
        Assert.That((second.Counts, second.TimingSdMs), Is.EqualTo((first.Counts, first.TimingSdMs)));
    }

    private static void FeedBeats(Scorer scorer, int beats, byte fraction)
    {
        for (int beat = 1; beat <= beats; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddMark(EcgMark(beat * 250, fraction));
            scorer.AdvanceTo(beat * Second);
        }
    }

    private static void FeedDay(Scorer scorer, int from, int to)
    {
        for (int beat = from; beat < to; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PatMs, beat * Second, 200, beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PulseFootTangent, (beat * Second) + (200 * Ms), beatId: beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.SystolicPeak, (beat * Second) + (330 * Ms), beatId: beat));
            scorer.AddMark(EcgMark(beat * 250, 3));
            scorer.AddMark(new Mark { Channel = Infrared, Kind = MarkKind.PulseFootTangent, Sample = (beat * 100) + 20 });
            scorer.AddMark(HeartRate(beat * 250, 8 * 250, 60));
            scorer.AddMark(Arrival((beat * 100) + 20, beat * 250, 201));
            scorer.AddUnusable(ChannelName.Infrared, (beat * Second) + (700 * Ms), (beat * Second) + (800 * Ms));
            scorer.AdvanceTo(beat * Second);
        }
    }
}
