// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Samples that do not come.</summary>
[TestFixture]
public sealed class BeatGapTests
{
    [TestCase(0.1)]
    [TestCase(0.24)]
    public void Restart_ShortGapsBetweenBeats_EndNoRunAndMoveNoBeat(double lengthS)
    {
        var ecg = new SyntheticEcg { NoiseMillivolts = 0.005 };
        int[] codes = ecg.Make(60, 1);
        double[] begins = [.. ecg.PeaksS.Where((_, i) => i % 3 == 2).Select(t => t + 0.4)];
        List<BeatEvent> whole = BeatStream.Run(codes, 250);
        List<BeatEvent> found = BeatStream.Run(codes, 250, isLost: i => IsLost(i, begins, lengthS));
        Assert.That(found.Select(b => b.RPeak), Is.EqualTo(whole.Select(b => b.RPeak)));
        Assert.That(found.Count(b => b.StartsRun), Is.EqualTo(1));
    }

    [Test]
    public void Restart_BeatInsideAShortGap_IsMissingAndTheNextHasNoInterval()
    {
        var ecg = new SyntheticEcg { NoiseMillivolts = 0.005 };
        int[] codes = ecg.Make(60, 1);
        double[] begins = [ecg.PeaksS[20] - 0.1, ecg.PeaksS[40] - 0.1];
        List<BeatEvent> found = BeatStream.Run(codes, 250, isLost: i => IsLost(i, begins, 0.2));
        Assert.That(found.Select(b => ecg.PeaksS.FindIndex(t => Math.Abs(t - Runs.Seconds(b.RPeak, 250)) < 0.05)), Has.None.EqualTo(20).And.None.EqualTo(40).And.None.EqualTo(-1));
        int[] starts = [.. found.Where(b => b.StartsRun).Skip(1).Select(b => ecg.PeaksS.FindIndex(t => Math.Abs(t - Runs.Seconds(b.RPeak, 250)) < 0.05))];
        Assert.That(starts, Is.EqualTo(new[] { 21, 41 }));
    }

    [Test]
    public void Restart_LongGap_TellsTheBeatRightBeforeIt()
    {
        var ecg = new SyntheticEcg { NoiseMillivolts = 0.005 };
        int[] codes = ecg.Make(60, 1);
        double[] begins = [ecg.PeaksS[20] + 0.06];
        List<BeatEvent> found = BeatStream.Run(codes, 250, isLost: i => IsLost(i, begins, 2));
        BeatEvent last = found.Last(b => Runs.Seconds(b.RPeak, 250) < begins[0]);
        Assert.That(Runs.Seconds(last.RPeak, 250), Is.EqualTo(ecg.PeaksS[20]).Within(0.002));
        Assert.That(found.First(b => Runs.Seconds(b.RPeak, 250) > begins[0]).StartsRun, Is.True);
    }

    [Test]
    public void Restart_GapEverySecond_LearnsAllTheSame()
    {
        // A fifth of the packets of 100 ms lost, two in a row: no stretch of two seconds is whole.
        var ecg = new SyntheticEcg { NoiseMillivolts = 0.005 };
        int[] codes = ecg.Make(60, 1);
        List<BeatEvent> found = BeatStream.Run(codes, 250, isLost: i => i % 250 < 75);
        Assert.That(Runs.Seconds(found[0].RPeak, 250), Is.LessThan(6));
        bool IsNearGap(double t) => ((t * 250) + 20) % 250 < 120;
        Runs.Score score = Runs.Compare(ecg.PeaksS.Where(t => !IsNearGap(t)), found.Select(b => Runs.Seconds(b.RPeak, 250)).Where(t => !IsNearGap(t)), 8, 59);
        Assert.That((score.Missed, score.Extra), Is.EqualTo((0, 0)));
    }

    [Test]
    public void Take_GapsInBlocksOfAnySize_GivesTheSame([Values(1, 13, 100)] int block)
    {
        int[] codes = new SyntheticEcg { EctopicShare = 0.1, NoiseMillivolts = 0.05 }.Make(60, 5);
        bool Lost(int i) => (i * 7919L / 40) % 17 < 2 || i % 1700 is > 900 and < 1100;
        Assert.That(BeatStream.Run(codes, 250, isLost: Lost, block: block), Is.EqualTo(BeatStream.Run(codes, 250, isLost: Lost)));
    }

    private static bool IsLost(int index, double[] begins, double lengthS) => begins.Any(b => index >= b * 250 && index < (b + lengthS) * 250);
}
