// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

/// <summary>Share of usable time with a reading. A minute is scored from 8 to 59 s: 51 s.</summary>
public class ReadingCoverageTests
{
    [Test]
    public void Available_ReadingsEverySecond_StandForFiveSecondsAfterTheLast()
    {
        Scorer scorer = WithReadings();
        ReadingScore row = Rate(scorer);

        // From 10.1 s to 20.1 + 5 s.
        Assert.That((row.UsableS, row.AvailableS), Is.EqualTo((51.0, 15.0)));
        Assert.That(row.AvailableShare, Is.EqualTo(15.0 / 51).Within(1e-12));
    }

    [TestCase(ChannelName.Ecg, MarkKind.GateShut, 11.9)]
    [TestCase(ChannelName.Infrared, MarkKind.GateShut, 15.0)]
    [TestCase(ChannelName.Ecg, MarkKind.JointGateShut, 15.0)]
    public void Available_GateShutsAt22Seconds_EndsThereWhenItIsItsOwn(ChannelName channel, MarkKind kind, double availableS)
    {
        Scorer scorer = WithReadings();
        scorer.AddMark(Shut(channel, kind, 22_000));
        Assert.That(Rate(scorer).AvailableS, Is.EqualTo(availableS).Within(1e-9));
    }

    [Test]
    public void Available_ReadingAfterTheGateHasShut_StandsAnew()
    {
        Scorer scorer = WithReadings();
        scorer.AddMark(Shut(ChannelName.Ecg, MarkKind.GateShut, 21_000));
        scorer.AddMark(At(ChannelName.Ecg, MarkKind.HeartRateBpm, 30_000));
        Assert.That(Rate(scorer).AvailableS, Is.EqualTo(10.9 + 5).Within(1e-9));
    }

    [Test]
    public void Available_UnusableStretchInside_CountsNeitherWay()
    {
        Scorer scorer = WithReadings();
        scorer.AddUnusable(ChannelName.Ecg, 12 * Second, 14 * Second);
        scorer.AddUnusable(ChannelName.Ecg, 40 * Second, 47 * Second);
        ReadingScore row = Rate(scorer);
        Assert.That((row.UsableS, row.AvailableS), Is.EqualTo((42.0, 13.0)));
    }

    [Test]
    public void Available_Arrival_NeedsBothSignalsAndItsJointGate()
    {
        Scorer scorer = New();
        scorer.AddMark(At(ChannelName.Infrared, MarkKind.ArrivalSpotMs, 20_000));
        scorer.AddMark(Shut(ChannelName.Infrared, MarkKind.GateShut, 21_000));
        scorer.AddMark(Shut(ChannelName.Infrared, MarkKind.JointGateShut, 24_000));
        scorer.AddUnusable(ChannelName.Ecg, 22 * Second, 23 * Second);
        scorer.AddUnusable(ChannelName.Infrared, (22 * Second) + (500 * Ms), (23 * Second) + (500 * Ms));
        ReadingScore row = scorer.Finish().FindReading(ChannelName.Infrared, MarkKind.ArrivalSpotMs)!;
        Assert.That((row.UsableS, row.AvailableS), Is.EqualTo((49.5, 2.4)), "20.1 to 24 s less 1.5 s");
    }

    [Test]
    public void Available_GateOfTheOtherColour_IsTheSame()
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Red), new ChannelDelay(ChannelName.Infrared), new ChannelDelay(ChannelName.Green)], 60 * Second);
        scorer.AddMark(At(ChannelName.Red, MarkKind.Spo2Percent, 20_000));
        scorer.AddMark(At(ChannelName.Green, MarkKind.HeartRateBpm, 20_000));
        scorer.AddMark(At(ChannelName.Infrared, MarkKind.HeartRateFusedBpm, 20_000));
        scorer.AddMark(Shut(ChannelName.Infrared, MarkKind.GateShut, 21_100));
        ScoreReport report = scorer.Finish();
        Assert.That(report.Readings.Select(r => (r.Kind, r.AvailableS)), Is.EqualTo(new[]
        {
            (MarkKind.Spo2Percent, 1.0), (MarkKind.HeartRateFusedBpm, 5.0), (MarkKind.HeartRateBpm, 5.0),
        }));
    }

    [Test]
    public void WrongPerDay_OneWrongReading_IsSpreadOverUsableTime()
    {
        Scorer scorer = WithReadings();
        scorer.AddUnusable(ChannelName.Ecg, 15_050 * Ms, 15_150 * Ms);
        ReadingScore row = Rate(scorer);
        Assert.That((row.Wrong, row.WrongPerDay), Is.EqualTo((0L, (double?)0)), "nothing is judged without truth");
        scorer = WithReadings();
        scorer.AddUnusable(ChannelName.Ecg, 14_950 * Ms, 15_050 * Ms);
        row = Rate(scorer);
        Assert.That(row.Wrong, Is.EqualTo(1));
        Assert.That(row.WrongPerDay, Is.EqualTo(86400 / 50.9).Within(1e-9));
    }

    // Any readings, gates and stretches, in streaming: against the same by tenths of a second.
    [TestCase(1)]
    [TestCase(2)]
    [TestCase(3)]
    public void Available_Streaming_EqualsCountingByTenths(int seed)
    {
        const int Tenths = 20_000;
        var random = new Random(seed);
        var format = Format();
        var scorer = new Scorer(format, Tenths * 100 * Ms);
        bool[] isStanding = new bool[Tenths + 100];
        bool[] isUsable = Enumerable.Repeat(true, Tenths + 100).ToArray();
        for (int now = 1; now < Tenths; now++)
        {
            if (random.Next(15) == 0 && now % 3000 < 2000)
            {
                scorer.AddMark(At(ChannelName.Ecg, MarkKind.HeartRateBpm, (now * 100) - 100));
                Array.Fill(isStanding, true, now, 50);
            }

            if (random.Next(100) == 0)
            {
                scorer.AddMark(Shut(ChannelName.Ecg, MarkKind.GateShut, now * 100));
                Array.Fill(isStanding, false, now, 50);
            }

            if (random.Next(80) == 0)
            {
                int length = random.Next(1, 60);
                scorer.AddUnusable(ChannelName.Ecg, now * 100 * Ms, (now + length) * 100 * Ms);
                Array.Fill(isUsable, false, now, Math.Min(length, isUsable.Length - now));
            }

            if (now % 10 == 0)
            {
                scorer.AdvanceTo(now * 100 * Ms);
            }
        }

        ReadingScore row = Rate(scorer);
        int[] scored = Enumerable.Range(2000, Tenths - 10 - 2000).ToArray();
        Assert.That(row.UsableS, Is.EqualTo(scored.Count(i => isUsable[i]) / 10.0).Within(1e-6));
        Assert.That(row.AvailableS, Is.EqualTo(scored.Count(i => isUsable[i] && isStanding[i]) / 10.0).Within(1e-6));
        Assert.That(row.AvailableS, Is.GreaterThan(100));
    }

    private static Scorer New() => new(Format(), 60 * Second);

    private static Scorer WithReadings()
    {
        Scorer scorer = New();
        for (int second = 10; second <= 20; second++)
        {
            scorer.AddMark(At(ChannelName.Ecg, MarkKind.HeartRateBpm, second * 1000));
        }

        return scorer;
    }

    private static TimedMark At(ChannelName channel, MarkKind kind, long ms) => new()
    {
        Channel = channel, Kind = kind, Value = 60, WindowBeginNs = (ms - 8000) * Ms, TimeNs = ms * Ms, EmittedTimeNs = (ms + 100) * Ms,
    };

    private static TimedMark Shut(ChannelName channel, MarkKind kind, long ms) => new()
    {
        Channel = channel, Kind = kind, Value = 1, TimeNs = (ms - 700) * Ms, EmittedTimeNs = ms * Ms,
    };

    private static ReadingScore Rate(Scorer scorer) => scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;
}
