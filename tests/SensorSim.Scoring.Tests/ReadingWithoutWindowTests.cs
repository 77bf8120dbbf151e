// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

/// <summary>Readings that state no window or no pair are judged at their own time; nothing escapes judgement and counts as available.</summary>
[TestFixture]
public sealed class ReadingWithoutWindowTests
{
    // Beats a second apart are 60 bpm by definition of the unit; 54 to 66 is right.
    [TestCase(20, 1)]
    [TestCase(-5, 1)]
    [TestCase(int.MinValue / 1000.0, 1)]
    [TestCase(53.9, 1)]
    [TestCase(54.1, 0)]
    [TestCase(66, 0)]
    public void HeartRate_NoWindow_IsComparedWithTheLatestTwoBeats(double rateBpm, int wrongOfEach)
    {
        Scorer scorer = WithBeats(1, 59);
        for (int beat = 1; beat < 60; beat++)
        {
            scorer.AddMark(HeartRate(beat * 250, 0, rateBpm));
        }

        ReadingScore row = Row(scorer, MarkKind.HeartRateBpm);
        Assert.That(row.Count, Is.GreaterThan(45));
        Assert.That(row.Wrong, Is.EqualTo(wrongOfEach * row.Count));
        Assert.That(row.Bias, Is.EqualTo(Math.Max(-10_000, rateBpm - 60)).Within(0.0005), "errors count up to 10 000 of the unit");
        Assert.That(row.UnjudgedCount, Is.Zero);
    }

    // The heart stands still from 30 s on: after 5 s there is no rate of this moment.
    [TestCase(34_900, 1, 0)]
    [TestCase(35_100, 0, 1)]
    public void HeartRate_NoWindowInAStandstill_HasNothingToRead(long timeMs, long count, long nothing)
    {
        Scorer scorer = WithBeats(1, 30);
        scorer.AddMark(HeartRate(timeMs / 4, 0, 60));

        ReadingScore row = Row(scorer, MarkKind.HeartRateBpm);
        Assert.That((row.Count, row.NothingThereCount), Is.EqualTo((count, nothing)));
    }

    [Test]
    public void Saturation_NoWindow_IsComparedWithTheLatestBeat()
    {
        Scorer scorer = WithBeats(1, 59);
        scorer.AddTruth(Truth(ChannelName.Ecg, MarkKind.Spo2Percent, 20 * Second, 90, 20));
        scorer.AddTruth(Truth(ChannelName.Ecg, MarkKind.Spo2Percent, 21 * Second, 96, 21));
        scorer.AddMark(Arrival(20 * 100 + 50, 0, 95) with { Kind = MarkKind.Spo2Percent, PairedChannel = Mark.None });

        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.Spo2Percent)!;
        Assert.That((row.Count, row.Wrong), Is.EqualTo((1L, 1L)));
        Assert.That(row.Bias, Is.EqualTo(5.0).Within(1e-6));
    }

    [Test]
    public void Arrival_NoPair_IsComparedWithTheLatestBeat()
    {
        Scorer scorer = WithBeats(1, 59);
        scorer.AddTruth(Truth(ChannelName.Infrared, MarkKind.PatMs, 20 * Second, 220, 20));
        scorer.AddMark(Arrival((20 * 100) + 22, 0, 260) with { PairedChannel = Mark.None });

        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        Assert.That((row.Count, row.Wrong, row.Bias), Is.EqualTo((1L, 1L, (double?)40)));
    }

    // What says nothing of now makes no availability: no value, told 10 s late, a window longer than truth remembers.
    [Test]
    public void AvailableShare_ReadingsThatCannotStand_CountForNothing()
    {
        Assert.That(Share(m => m), Is.GreaterThan(0.99));
        Assert.That(Share(m => m with { HasValue = false }), Is.Zero);
        Assert.That(Share(m => m with { Sample = 0 }), Is.LessThan(0.2), "only those of the first ten seconds");
        Assert.That(Share(m => m with { WindowSamples = 101 * 250 }), Is.Zero);
    }

    private static double? Share(Func<Mark, Mark> change)
    {
        Scorer scorer = WithBeats(1, 59);
        for (int beat = 1; beat < 60; beat++)
        {
            scorer.AddMark(change(HeartRate(beat * 250, 0, 60)));
        }

        return Row(scorer, MarkKind.HeartRateBpm).AvailableShare;
    }

    private static ReadingScore Row(Scorer scorer, MarkKind kind) => scorer.Finish().FindReading(ChannelName.Ecg, kind)!;

    private static Scorer WithBeats(int first, int last)
    {
        var scorer = new Scorer(Format(), 60 * Second);
        for (int beat = first; beat <= last; beat++)
        {
            scorer.AddTruth(RPeak(beat * Second, beat));
        }

        return scorer;
    }
}
