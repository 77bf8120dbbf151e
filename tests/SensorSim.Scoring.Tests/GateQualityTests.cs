// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

/// <summary>Readings withheld rightly and wrongly, their latency and mean errors, worked by hand. A minute is scored from 8 to 59 s: 51 s.</summary>
public class GateQualityTests
{
    // One reading at 20 s stands until 25 s; the electrode is off from 22 to 32 s: 3 of its 10 s have a reading; of the other 41 s 2.
    [Test]
    public void Withheld_ReadingIntoAnUnusableStretch_SplitsTheTime()
    {
        Scorer scorer = New();
        scorer.AddUnusable(ChannelName.Ecg, 22 * Second, 32 * Second);
        scorer.AddMark(Rate(20 * Second, 60));
        ReadingScore row = Row(scorer);
        Assert.That((row.UsableS, row.AvailableS), Is.EqualTo((41.0, 2.0)));
        Assert.That((row.UnusableS, row.UnusableAvailableS), Is.EqualTo((10.0, 3.0)));
        Assert.That(row.WithheldWronglyShare, Is.EqualTo(39.0 / 41).Within(1e-12));
        Assert.That(row.WithheldRightlyShare, Is.EqualTo(0.7).Within(1e-12));
    }

    [Test]
    public void Withheld_GateShutsWithTheElectrode_IsAllRight()
    {
        Scorer scorer = New();
        scorer.AddUnusable(ChannelName.Ecg, 22 * Second, 32 * Second);
        scorer.AddMark(Rate(20 * Second, 60));
        scorer.AddMark(new TimedMark { Channel = ChannelName.Ecg, Kind = MarkKind.GateShut, TimeNs = 22 * Second, EmittedTimeNs = 22 * Second });
        Assert.That(Row(scorer).WithheldRightlyShare, Is.EqualTo(1));
    }

    [Test]
    public void Withheld_NothingUnusable_IsUndefined() => Assert.That(Row(WithRates()).WithheldRightlyShare, Is.Null);

    // True rate 60; readings 61, 57, 63, 60 and 70: off by 1, 3, 3, 0 and 10.
    [Test]
    public void MeanAbs_FiveReadings_GivesMeanInUnitAndPerCent()
    {
        ReadingScore row = Row(WithRates());
        Assert.That(row.MeanAbs, Is.EqualTo(17.0 / 5).Within(1e-6));
        Assert.That(row.MeanAbsPercent, Is.EqualTo(17.0 / 5 / 60 * 100).Within(1e-6));
        Assert.That(row.WithinShare, Is.EqualTo(0.8).Within(1e-12), "10 is more than 5 bpm and 10 %");
    }

    [Test]
    public void Latency_Readings_HasMedianAndP95()
    {
        ReadingScore row = Row(WithRates());
        Assert.That(row.LatencyMedianMs, Is.EqualTo(300).Within(10));
        Assert.That(row.LatencyP95Ms, Is.EqualTo(500).Within(10));
    }

    // Any cut into steps of scoring gives the same times.
    [TestCase(1)]
    [TestCase(7)]
    [TestCase(60)]
    public void Withheld_AnySteps_AreTheSame(int stepS)
    {
        Scorer scorer = New();
        scorer.AddUnusable(ChannelName.Ecg, 22 * Second, 32 * Second);
        scorer.AddUnusable(ChannelName.Ecg, 40 * Second, 41 * Second);
        for (int s = 1; s <= 60; s++)
        {
            if (s is 12 or 20 or 38)
            {
                scorer.AddMark(Rate(s * Second, 60));
            }

            if (s % stepS == 0)
            {
                scorer.AdvanceTo(s * Second);
            }
        }

        ReadingScore row = Row(scorer);
        Assert.That((row.AvailableNs, row.UsableNs, row.UnusableNs, row.UnusableAvailableNs), Is.EqualTo((11 * Second, 40 * Second, 11 * Second, 4 * Second)));
    }

    private static Scorer New() => new([new ChannelDelay(ChannelName.Ecg)], 60 * Second);

    private static Scorer WithRates()
    {
        Scorer scorer = New();
        for (int s = 1; s < 60; s++)
        {
            scorer.AddTruth(RPeak(s * Second, s));
        }

        double[] rates = [61, 57, 63, 60, 70];
        for (int i = 0; i < rates.Length; i++)
        {
            scorer.AddMark(Rate((20 + (4 * i)) * Second, rates[i], latencyMs: 100 * (i + 1)));
        }

        return scorer;
    }

    private static ReadingScore Row(Scorer scorer) => scorer.Finish().FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;

    private static TimedMark Rate(long timeNs, double bpm, long latencyMs = 0) => new()
    {
        Channel = ChannelName.Ecg, Kind = MarkKind.HeartRateBpm, TimeNs = timeNs, WindowBeginNs = timeNs - (4 * Second), Value = bpm,
        EmittedTimeNs = timeNs + (latencyMs * Ms),
    };
}
