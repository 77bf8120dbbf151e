// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests.Beats;

/// <summary>Figures of events beside sensitivity and timing, worked by hand. A minute is scored from 8 to 59 s.</summary>
public class BeatFiguresTests
{
    [Test]
    public void Classes_FoundAndMissed_AreCountedByClass()
    {
        Scorer scorer = New();
        for (int i = 0; i < 10; i++)
        {
            BeatClass label = i < 6 ? BeatClass.Normal : i < 9 ? BeatClass.VentricularPremature : BeatClass.AtrialPremature;
            scorer.AddTruth(RPeak((10 + i) * Second) with { Label = label });
            if (i is not (2 or 7 or 8))
            {
                scorer.AddMark(Beat((10 + i) * Second));
            }
        }

        Assert.That(Row(scorer).Classes, Is.EqualTo(new[]
        {
            new ClassCounts(HeartBeatClass.Normal, 5, 1),
            new ClassCounts(HeartBeatClass.SupraventricularEctopic, 1, 0),
            new ClassCounts(HeartBeatClass.VentricularEctopic, 1, 2),
        }));
    }

    [Test]
    public void Classes_OfTheLeadIn_AreNotCounted()
    {
        Scorer scorer = New();
        scorer.AddTruth(RPeak(7 * Second));
        scorer.AddTruth(RPeak(10 * Second));
        Assert.That(Row(scorer).Classes.Single(), Is.EqualTo(new ClassCounts(HeartBeatClass.Normal, 0, 1)));
    }

    [Test]
    public void Judged_Events_TellTheirClass()
    {
        var told = new List<JudgedEvent>();
        Scorer scorer = New();
        scorer.EventJudged = told.Add;
        scorer.AddTruth(RPeak(10 * Second) with { Label = BeatClass.Paced });
        scorer.AddMark(Beat(20 * Second));
        scorer.Finish();
        Assert.That(told.Select(t => t.Label), Is.EqualTo(new[] { BeatClass.Paced, BeatClass.None }));
    }

    // Nineteen given 100 ms after the event and one 2 s after it.
    [Test]
    public void Latency_MatchedDetections_HasMedianAndP95()
    {
        Scorer scorer = New();
        for (int i = 0; i < 20; i++)
        {
            scorer.AddTruth(RPeak((10 + i) * Second));
            scorer.AddMark(Beat((10 + i) * Second, latencyMs: i == 19 ? 2000 : 100));
        }

        // Extra ones do not count.
        scorer.AddMark(Beat(40 * Second, latencyMs: 9000));
        scorer.AddMark(Beat(42 * Second, latencyMs: 9000));
        EventScore row = Row(scorer);
        Assert.That(row.LatencyMedianMs, Is.EqualTo(100).Within(10));
        Assert.That(row.LatencyP95Ms, Is.EqualTo(100).Within(10), "rank 19 of 20");
        Assert.That(row.Latency.Count, Is.EqualTo(20));
    }

    [Test]
    public void Latency_DetectionsThatDoNotSay_IsUndefined()
    {
        Scorer scorer = New();
        scorer.AddTruth(RPeak(10 * Second));
        scorer.AddMark(new TimedMark { Channel = ChannelName.Ecg, Kind = MarkKind.RPeak, TimeNs = 10 * Second });
        Assert.That(Row(scorer).LatencyMedianMs, Is.Null);
    }

    // Offsets 0, +10, −10 ms a second apart: intervals are off by +10 and −20 ms, RMS √250 ms of 1 s; a missed beat and an extra one break the chain.
    [Test]
    public void Intervals_NeighbouringMatches_HaveRmsOfTheirDifferences()
    {
        Scorer scorer = New();
        long[] offsetsMs = [0, 10, -10];
        for (int i = 0; i < 3; i++)
        {
            scorer.AddTruth(RPeak((10 + i) * Second));
            scorer.AddMark(Beat(((10 + i) * Second) + (offsetsMs[i] * Ms)));
        }

        scorer.AddTruth(RPeak(13 * Second));
        scorer.AddTruth(RPeak(14 * Second));
        scorer.AddMark(Beat((14 * Second) + (40 * Ms)));
        scorer.AddMark(Beat((14 * Second) + (500 * Ms)));
        scorer.AddTruth(RPeak(15 * Second));
        scorer.AddMark(Beat(15 * Second));
        EventScore row = Row(scorer);
        Assert.That(row.IntervalCount, Is.EqualTo(2));
        Assert.That(row.IntervalRmsMs, Is.EqualTo(Math.Sqrt(250)).Within(1e-9));
        Assert.That(row.IntervalRmsPercent, Is.EqualTo(Math.Sqrt(250) / 10).Within(1e-9));
    }

    // Shut from 20 to 25 s and from 50 s on; scored until 59 s: 14 s. Beats each second from 10 to 57 s, none found while shut, nor at 30 s.
    [Test]
    public void Shutdown_GateShut_ListsTimeAndMissedBeats()
    {
        Scorer scorer = New();
        for (int s = 10; s < 58; s++)
        {
            scorer.AddTruth(RPeak(s * Second));
            if (s is 20 or 50)
            {
                scorer.AddMark(Gate(MarkKind.GateShut, s * Second));
            }
            else if (s == 25)
            {
                scorer.AddMark(Gate(MarkKind.GateOpen, s * Second));
            }

            if (s is not (30 or (>= 20 and < 25) or >= 50))
            {
                scorer.AddMark(Beat(s * Second));
            }

            scorer.AdvanceTo(s * Second);
        }

        EventScore row = Row(scorer);
        Assert.That((row.ShutdownS, row.Missed, row.MissedInShutdown), Is.EqualTo(((double?)14, 14L, 13L)));
    }

    [Test]
    public void Shutdown_NoGateEverTold_IsUnknown()
    {
        Scorer scorer = New();
        scorer.AddTruth(RPeak(10 * Second));
        Assert.That((Row(scorer).ShutdownS, Row(scorer).MissedInShutdown), Is.EqualTo(((double?)null, 0L)));
    }

    // Detections at 20, 24, 31 and 40 s; beats missed at 22, 28 and 50 s; asystole between 31 and 40 s. Silent: 24 to 31 s, and 40 to 59 s.
    [Test]
    public void Silent_LongPausesWithMissedBeats_AreAdded()
    {
        Scorer scorer = New();
        foreach (int s in new[] { 10, 20, 22, 24, 28, 31, 40, 50 })
        {
            scorer.AddTruth(RPeak(s * Second));
        }

        foreach (int s in new[] { 10, 20, 24, 31, 40 })
        {
            scorer.AddMark(Beat(s * Second));
        }

        // From 10 to 20 s nothing was missed.
        Assert.That(Row(scorer).SilentS, Is.EqualTo(7 + 19).Within(1e-9));
        Assert.That(Row(scorer).SilentS, Is.EqualTo(7 + 19).Within(1e-9), "asked again");
    }

    private static Scorer New() => new(
        [new ChannelDelay(ChannelName.Ecg)], 60 * Second, new ScoringOptions { ExpectedRows = [new(ChannelName.Ecg, MarkKind.RPeak)] });

    private static EventScore Row(Scorer scorer) => scorer.Finish().Find(ChannelName.Ecg, MarkKind.RPeak)!;

    private static TimedMark Beat(long timeNs, long latencyMs = 50) =>
        new() { Channel = ChannelName.Ecg, Kind = MarkKind.RPeak, TimeNs = timeNs, EmittedTimeNs = timeNs + (latencyMs * Ms) };

    private static TimedMark Gate(MarkKind kind, long timeNs) =>
        new() { Channel = ChannelName.Ecg, Kind = kind, TimeNs = timeNs, EmittedTimeNs = timeNs + (300 * Ms) };
}
