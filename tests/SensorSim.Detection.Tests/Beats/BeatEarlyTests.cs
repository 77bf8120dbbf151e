// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Wide beats without a pause, which leave the rhythm as artefacts do.</summary>
[TestFixture]
public sealed class BeatEarlyTests
{
    private const int Interval = 240;
    private const int Coupling = 120;
    private const int Near = Interval / 16;
    private const int BeatHeight = 8000;

    // No noise, and some that raises doubt all the time. Were none believed for its place, 74 and 98 would be missed.
    [TestCase(0)]
    [TestCase(0.06)]
    public void Take_EctopicBeatsWithoutPause_AreFound(double noiseMillivolts)
    {
        int ectopic = 0;
        int missed = 0;
        int extra = 0;
        for (int seed = 1; seed <= 8; seed++)
        {
            var ecg = new SyntheticEcg { RateBpm = 60, EctopicShare = 0.08, EctopicCoupling = 0.5, EctopicPause = 0.5, NoiseMillivolts = noiseMillivolts };
            List<BeatEvent> found = BeatStream.Run(ecg.Make(300, seed), ecg.RateHz);
            Runs.Score score = BeatStream.Score(ecg, found, 300);
            ectopic += ecg.PeaksS.Zip(ecg.PeaksS.Skip(1), (a, b) => b - a).Count(d => d < 0.7) / 2;
            missed += score.Missed;
            extra += score.Extra;
        }

        Assert.That(ectopic, Is.GreaterThan(140));
        Assert.That(missed, Is.LessThanOrEqualTo(ectopic / 50));
        Assert.That(extra, Is.LessThanOrEqualTo(1));
    }

    // Every second beat is early, in strong noise. Were their pauses not known, 238 false ones would stand in them.
    [Test]
    public void Take_BigeminyInNoise_IsFound()
    {
        int beats = 0;
        int missed = 0;
        int extra = 0;
        for (int seed = 1; seed <= 8; seed++)
        {
            var ecg = new SyntheticEcg { RateBpm = 70, EctopicShare = 1, EctopicCoupling = 0.5, EctopicPause = 1.5, NoiseMillivolts = 0.12 };
            List<BeatEvent> found = BeatStream.Run(ecg.Make(300, seed), ecg.RateHz);
            Runs.Score score = BeatStream.Score(ecg, found, 300);
            beats += ecg.PeaksS.Count;
            missed += score.Missed;
            extra += score.Extra;
        }

        Assert.That(beats, Is.GreaterThan(2700));
        Assert.That(missed, Is.LessThanOrEqualTo(beats / 200));
        Assert.That(extra, Is.LessThanOrEqualTo(beats / 20));
    }

    [Test]
    public void Look_WhereTheOneBeforeWas_IsBelieved()
    {
        Bench bench = Bench.Begin();
        Assert.That(bench.Look(Coupling, BeatHeight, out bool isNew), Is.False);
        Assert.That(isNew, Is.True);
        foreach ((int at, bool isSame) in new[] { (Coupling + Near, true), (Coupling, true), (Coupling - Near - 1, false), (Coupling - Near - 1, true), (Coupling, false) })
        {
            bench.Usual(2);
            Assert.That(bench.Look(at, BeatHeight, out isNew), Is.EqualTo(isSame), $"{at}");
            Assert.That(isNew, Is.Not.EqualTo(isSame), $"{at}");
        }
    }

    // Learned levels: beats 8000, the rest 1000; half of a beat to five quarters, and two and a half times the rest.
    [TestCase(3999, false)]
    [TestCase(4000, true)]
    [TestCase(10000, true)]
    [TestCase(10002, false)]
    public void Look_TooLowOrTooHigh_IsNoneOfThem(int height, bool isOne)
    {
        Bench bench = Bench.Begin();
        bench.Look(Coupling, height, out bool isNew);
        Assert.That(isNew, Is.EqualTo(isOne));
    }

    [Test]
    public void Look_NarrowLateOrAfterAnotherEarlyOne_IsNoneOfThem()
    {
        Bench bench = Bench.Begin();
        bench.Look(Interval - (Interval / 8), BeatHeight, out bool isLateOne);
        bench.Look(Coupling, BeatHeight, out bool isNarrowOne, isWide: false);
        bench.Early.Beat(bench.Rhythm, Coupling, isUsual: false, isDoubtful: false);
        bench.Look(Coupling, BeatHeight, out bool isSecondOne);
        Assert.That((isLateOne, isNarrowOne, isSecondOne), Is.EqualTo((false, false, false)));
    }

    [Test]
    public void Look_AfterEveryBeat_IsBelievedThreeTimesOnly()
    {
        Bench bench = Bench.Begin();
        var believed = new List<bool>();
        for (int i = 0; i < 6; i++)
        {
            believed.Add(bench.Look(Coupling, BeatHeight, out _));
            bench.Usual(1);
        }

        bench.Usual(1);
        believed.Add(bench.Look(Coupling, BeatHeight, out _));
        Assert.That(believed, Is.EqualTo(new[] { false, true, true, false, false, false, true }));
    }

    // A T wave is mostly too low; where it has been seen so three times, a higher one is a T wave too.
    [Test]
    public void Look_WhereLowWavesWere_IsAWave()
    {
        Bench bench = Bench.Begin();
        bench.Look(Coupling, BeatHeight, out _);
        for (int i = 0; i < 3; i++)
        {
            bench.Usual(1);
            bench.Look(Coupling, 2000, out _);
        }

        bench.Usual(1);
        Assert.That(bench.Look(Coupling, BeatHeight, out bool isNew), Is.False);
        Assert.That(isNew, Is.False);
        Assert.That(bench.Look(Coupling + (2 * Near) + 2, BeatHeight, out isNew), Is.False);
        Assert.That(isNew, Is.True);
    }

    [Test]
    public void Beat_EarlyAndWide_MayHaveAPauseOrNone()
    {
        Bench bench = Bench.Begin();
        bench.Early.Beat(bench.Rhythm, Coupling, isUsual: false, isDoubtful: false);
        Assert.That(bench.Early.EarlyBy, Is.EqualTo(Interval - Coupling));
        int[] places = [Interval - Coupling - (Interval / 8) - 1, Interval - Coupling - (Interval / 8), Interval - Coupling + (Interval / 8), Interval - Coupling + (Interval / 8) + 1];
        Assert.That(places.Select(at => bench.Early.IsOnTime(bench.Rhythm, at)), Is.EqualTo(new[] { false, true, true, false }));
        bench.Usual(1);
        Assert.That(bench.Early.EarlyBy, Is.Zero);
    }

    // Early beats and false ones in their pauses make the median short: the usual interval is half of an early one and its pause.
    [Test]
    public void Beat_PauseAfterEarlyOne_SaysWhatIsUsual()
    {
        Bench bench = Bench.Begin();
        bench.Early.Beat(bench.Rhythm, Coupling, isUsual: false, isDoubtful: false);
        bench.Early.Beat(bench.Rhythm, Interval - 40, isUsual: false, isDoubtful: true);
        bench.Early.Beat(bench.Rhythm, Interval - Coupling + 40, isUsual: true, isDoubtful: false);
        for (int i = 0; i < 8; i++)
        {
            bench.Rhythm.Add(Coupling);
        }

        const int early = Interval - (Interval / 8);
        Assert.That((bench.Early.IsEarly(bench.Rhythm, early - 1), bench.Early.IsEarly(bench.Rhythm, early)), Is.EqualTo((true, false)));
        bench.Early.Beat(bench.Rhythm, Coupling, isUsual: false, isDoubtful: false);
        Assert.That(bench.Early.EarlyBy, Is.EqualTo((2 * Interval) - Coupling - Coupling));

        // Two usual ones that are close: no pauses any more.
        bench.Early.Beat(bench.Rhythm, (2 * Interval) - Coupling, isUsual: true, isDoubtful: false);
        bench.Early.Beat(bench.Rhythm, Coupling, isUsual: true, isDoubtful: false);
        Assert.That(bench.Early.IsEarly(bench.Rhythm, Coupling), Is.False);
    }

    private sealed class Bench
    {
        public BeatEarly Early;
        public BeatRhythm Rhythm;
        private BeatLevels _levels;
        private BeatWindows _windows;

        public static Bench Begin()
        {
            var bench = new Bench { _windows = BeatWindows.ForRate(250, 0, Pipeline.Tuning.Usual) };
            bench._levels.SetPercent(100);
            bench._levels.Learn(BeatHeight, 1000);
            for (int i = 0; i < 8; i++)
            {
                bench.Rhythm.Add(Interval);
            }

            bench.Usual(2);
            return bench;
        }

        public void Usual(int count)
        {
            for (int i = 0; i < count; i++)
            {
                Early.Beat(Rhythm, Interval, isUsual: true, isDoubtful: false);
            }
        }

        // Slopes of 8 ms: of 40 ms about their middle, or of 16.
        public bool Look(int since, int height, out bool isNew, bool isWide = true)
        {
            int half = isWide ? 5 : 2;
            BeatCandidate c = default;
            c.Height = height;
            c.Slopes[7 - half] = 3000;
            c.Slopes[7 + half] = -3000;
            return Early.Look(_windows, _levels, Rhythm, since, c, isWave: false, out isNew);
        }
    }
}
