// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

/// <summary>Device time to body time, against device = declared + offset + (1 + ppm / 10⁶) × body in decimal arithmetic of 28 digits.</summary>
public class ChannelDelayTests
{
    [TestCase(0, 0, 0)]
    [TestCase(-100_000, 20_000_000, 0)]
    [TestCase(40_000_000, -2_000_000_000, 20)]
    [TestCase(0, 5_000_000_000, -1000)]
    [TestCase(123, 456, 1000)]
    [TestCase(0, 0, 0.001)]
    public void BodyNs_AnyTimeOfAWeek_IsTheInverseToHalfANanosecond(long declared, long offset, double ppm)
    {
        var delay = new ChannelDelay(ChannelName.Ecg, declared, offset, ppm);
        for (long device = -10 * Second; device < 7 * 86_400 * Second; device += 3_333_333_333_337)
        {
            decimal exact = (device - declared - offset) / (1 + ((decimal)ppm * 1e-6m));

            // A double holds the small part of a week, 6e11 ns at 1000 ppm, to 1e-4 ns.
            Assert.That(Math.Abs(delay.BodyNs(device) - exact), Is.LessThanOrEqualTo(0.5001m), $"{device}");
        }
    }

    // 20 ppm: 12 ms in ten minutes, 1.728 s a day (own arithmetic: ppm × 10⁻⁶ × time).
    [TestCase(600, 12_000_000)]
    [TestCase(86_400, 1_728_000_000)]
    public void BodyNs_TwentyPpm_IsWhatTheDriftSays(long bodySeconds, long driftNs) =>
        Assert.That(
            new ChannelDelay(ChannelName.Ecg, 0, 0, 20).BodyNs((bodySeconds * Second) + driftNs), Is.EqualTo(bodySeconds * Second));

    [Test]
    public void Finish_ClockThatIsOff_IsTakenOffAndReported()
    {
        var clock = new ChannelDelay(ChannelName.Ecg, 40 * Ms, 20 * Ms, 100);
        var scorer = new Scorer([clock], 600 * Second);
        for (int beat = 1; beat <= 590; beat++)
        {
            // The detector is 3 ms late by itself; its clock adds 40 + 20 ms and 0.1 ms each second.
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddMark(At((beat * Second) + (63 * Ms) + (beat * 100_000L)));
            scorer.AdvanceToDeviceTime(beat * Second);
        }

        ScoreReport report = scorer.Finish();
        EventScore row = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(report.IsExact, Is.True);
        Assert.That((row.Missed, row.Extra), Is.EqualTo((0L, 0L)));
        Assert.That(row.TimingBiasMs, Is.EqualTo(3).Within(0.001), "3 ms at 100 ppm are 0.3 µs short");
        Assert.That((row.DeclaredDelayMs, row.ClockOffsetMs, row.ClockPpm), Is.EqualTo((40.0, 20.0, 100.0)));
    }

    // 2000 ppm apart for 40,000 s: the clocks are 80 s apart at the end, more than the 12 s that a scorer waits. Files stand in the order of
    // device time.
    [Test]
    public void ScoreAll_ClocksThatRunApart_FindsEveryEvent()
    {
        ChannelDelay[] clocks = [new(ChannelName.Ecg, 0, 0, 1000), new(ChannelName.Infrared, 0, 0, -1000)];
        const int Beats = 39_000;
        TruthEvent[] truth =
        [
            .. Enumerable.Range(1, Beats).SelectMany(beat => new[]
            {
                RPeak(beat * Second, beat),
                Truth(ChannelName.Infrared, MarkKind.PulseFootTangent, (beat * Second) + (200 * Ms), beatId: beat),
            }),
        ];
        TimedMark[] marks =
        [
            .. truth.Select(t => new TimedMark
            {
                Channel = t.Channel,
                Kind = t.Kind,
                TimeNs = t.TimeNs + (t.TimeNs / 1000 * (t.Channel == ChannelName.Ecg ? 1 : -1)),
                EmittedTimeNs = t.TimeNs + (t.TimeNs / 1000 * (t.Channel == ChannelName.Ecg ? 1 : -1)),
            }).OrderBy(m => m.TimeNs),
        ];
        ScoreReport report = new Scorer(clocks, 40_000 * Second).ScoreAll(truth, marks);
        Assert.That(report.LateCount, Is.Zero);
        Assert.That(report.IsExact, Is.True);
        foreach (EventScore row in new[] { report.Find(ChannelName.Ecg, MarkKind.RPeak)!, report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)! })
        {
            Assert.That((row.Missed, row.Extra), Is.EqualTo((0L, 0L)));
            Assert.That(row.TimingBiasMs, Is.EqualTo(0).Within(0.001));
        }
    }

    // A record of 60 s of a clock 5 s late holds nothing of the body after 55 s; of one 5 s early nothing before 5 s.
    [TestCase(5, 8, 54)]
    [TestCase(-5, 13, 59)]
    public void Finish_ClockFarOff_ScoresOnlyWhatTheRecordHolds(int offsetSeconds, int firstScored, int endScored)
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg, 0, offsetSeconds * Second)], 60 * Second);
        for (int beat = 1; beat < 60; beat++)
        {
            scorer.AddTruth(RPeak((beat * Second) + 500, beat));
        }

        EventScore row = scorer.Finish().Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(row.Missed, Is.EqualTo(endScored - firstScored));
        Assert.That(row.OutsideTruth, Is.EqualTo(59 - row.Missed));
    }

    [Test]
    public void AddUnusable_ClockThatIsOff_CoversTheBodyTimeMeant()
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg, 0, 2 * Second, 1000)], 100 * Second);

        // 1000 ppm: body 20 s shows at 22.02 s, body 25 s at 27.025 s.
        scorer.AddUnusable(ChannelName.Ecg, 22_020 * Ms, 27_025 * Ms);
        for (int beat = 1; beat < 100; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
        }

        Assert.That(scorer.Finish().Find(ChannelName.Ecg, MarkKind.RPeak)!.UnusableTruth, Is.EqualTo(5), "20 s to 24 s");
    }

    // Everything shows 8 s late: what the stream has reached in device time is 8 s less of the body, and nothing younger may be closed.
    [Test]
    public void AdvanceToDeviceTime_ClockThatIsLate_ClosesNothingEarly()
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg, 0, 8 * Second)], 300 * Second);
        for (int beat = 1; beat < 200; beat++)
        {
            // Truth runs ahead, and each answer comes 10 s after its beat has been seen.
            scorer.AddTruth(RPeak(beat * Second, beat));
            if (beat > 18)
            {
                scorer.AddMark(At((beat - 18 + 8) * Second));
            }

            scorer.AdvanceToDeviceTime(beat * Second);
        }

        ScoreReport report = scorer.Finish();
        Assert.That((report.LateCount, report.Find(ChannelName.Ecg, MarkKind.RPeak)!.Extra), Is.EqualTo((0L, 0L)));
    }

    [Test]
    public void Finish_ReadingOfTwoClocks_KeepsTheErrorOfTheirSynchronisation()
    {
        // Light 20 ms late: feet are right in body time, the difference to the R peak is 20 ms too long.
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg), new ChannelDelay(ChannelName.Infrared, 0, 20 * Ms)], 60 * Second);
        for (int beat = 1; beat < 60; beat++)
        {
            long r = beat * Second;
            long foot = r + (200 * Ms);
            scorer.AddTruth(RPeak(r, beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PulseFootTangent, foot, beatId: beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PatMs, foot, 200, beat));
            scorer.AddMark(new TimedMark { Channel = ChannelName.Infrared, Kind = MarkKind.PulseFootTangent, TimeNs = foot + (20 * Ms) });
            scorer.AddMark(new TimedMark
            {
                Channel = ChannelName.Infrared, Kind = MarkKind.ArrivalTimeMs, TimeNs = foot + (20 * Ms), Value = 220,
                PairedTimeNs = r, EmittedTimeNs = foot + (100 * Ms),
            });
        }

        ScoreReport report = scorer.Finish();
        Assert.That(report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!.TimingBiasMs, Is.EqualTo(0));
        Assert.That(report.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!.Bias, Is.EqualTo(20).Within(1e-9));
    }

    [Test]
    public void Finish_ReadingFromABeatInAnUnusableStretch_CountsAsGivenThere()
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg), new ChannelDelay(ChannelName.Infrared)], 60 * Second);
        scorer.AddUnusable(ChannelName.Ecg, 30 * Second, 40 * Second);
        for (int beat = 1; beat < 60; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
            scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PatMs, (beat * Second) + (200 * Ms), 200, beat));
            scorer.AddMark(new TimedMark
            {
                Channel = ChannelName.Infrared, Kind = MarkKind.ArrivalTimeMs, TimeNs = (beat * Second) + (200 * Ms), Value = 200,
                PairedTimeNs = beat * Second,
            });
        }

        // Beats of 30 s to 39 s; the light itself is usable throughout.
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        Assert.That((row.InUnusableCount, row.Count, row.Wrong), Is.EqualTo((10L, 41L, 10L)));
    }

    // Ten times as many stretches as a scorer has room for at a time.
    [Test]
    public void ScoreAll_ManyUnusableStretches_AreForgottenOneByOne()
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg)], 12_000 * Second);
        TruthEvent[] truth = [.. Enumerable.Range(1, 11_999).Select(beat => RPeak(beat * Second, beat))];
        UnusableStretch[] unusable =
        [
            .. Enumerable.Range(1, 11_998).Select(k => new UnusableStretch(ChannelName.Ecg, (k * Second) - (k % 2 * Ms), (k * Second) + Ms)),
        ];

        ScoreReport report = scorer.ScoreAll(truth, [], unusable);

        Assert.That(report.SpanOverflowCount, Is.Zero);
        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.ReferenceCount, Is.Zero);
        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.UnusableTruth, Is.EqualTo(11_999 - 299 - 1), "from 300 s to 11,998 s");
    }

    private static TimedMark At(long deviceNs) => new() { Channel = ChannelName.Ecg, Kind = MarkKind.RPeak, TimeNs = deviceNs };
}
