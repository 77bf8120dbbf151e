// SPDX-License-Identifier: MIT
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Rhythm;

/// <summary>Intervals and classes of every rhythm against textbook arithmetic.</summary>
public sealed class RhythmTests
{
    // Full compensation: RR before + RR after = 2 RR; interpolated: = RR (textbook, common practice).
    [TestCase("compensatory", 2.0)]
    [TestCase("interpolated", 1.0)]
    public void VentricularPremature_Pause_FollowsTheTextbook(string pause, double intervals)
    {
        var heart = new Rhythms(
            Rhythms.Steady(75).Set(EctopyKeys.VentricularPattern, "random").Set(EctopyKeys.VentricularPercent, 10)
                .Set(EctopyKeys.VentricularPause, pause).Set(EctopyKeys.VentricularCouplingPercent, pause == "compensatory" ? 60 : 50),
            1,
            600);
        HeartEvent[] beats = [.. heart.Events.Where(e => e.Class != BeatClass.Blocked)];
        int found = 0;
        for (int i = 1; i < beats.Length - 1; i++)
        {
            if (beats[i].Class == BeatClass.VentricularPremature)
            {
                found++;
                Assert.That(beats[i + 1].Seconds - beats[i - 1].Seconds, Is.EqualTo(intervals * 0.8).Within(1e-9));
                Assert.That(beats[i].HasP, Is.False);
                Assert.That((beats[i].Seconds - beats[i - 1].Seconds) / 0.8, Is.EqualTo(pause == "compensatory" ? 0.6 : 0.5).Within(1e-9));
            }
        }

        // 760 sinus impulses, some of them lost to the pause: binomial with p = 0.1, four standard errors.
        Assert.That(found, Is.InRange(40, 105));
        Assert.That(heart.Events.Count(e => e.Class == BeatClass.Blocked), Is.EqualTo(pause == "compensatory" ? found : 0).Within(1));
    }

    // QRS complexes never lie on one another, whatever coupling, rate, pattern and pause are wished: 200 ms apart at least.
    [Test]
    public void PrematureBeats_AnyWish_KeepTheirDistance(
        [Values(40, 90, 180, 250)] double rateBpm, [Values(30, 60, 95)] double coupling, [Values] bool isInterpolated, [Values(1, 2, 9)] int group)
    {
        KeyValues values = new KeyValues().Set(HeartKeys.RateBpm, rateBpm).Set(EctopyKeys.VentricularPattern, "bigeminy")
            .Set(EctopyKeys.AtrialPattern, "trigeminy").Set(EctopyKeys.VentricularCouplingPercent, coupling).Set(EctopyKeys.CouplingSpreadPercent, 10)
            .Set(EctopyKeys.AtrialCouplingPercent, Math.Max(40, coupling)).Set(EctopyKeys.VentricularPause, isInterpolated ? "interpolated" : "compensatory")
            .Set(EctopyKeys.VentricularGroup, group).Set(EctopyKeys.GroupRateBpm, 250);
        Assert.That(new Rhythms(values, 21, 300).RrMs, Is.All.GreaterThanOrEqualTo(199.999));
    }

    // A premature atrial beat resets the node: both intervals together are less than two (textbook).
    [Test]
    public void AtrialPremature_ResetsTheNode()
    {
        var heart = new Rhythms(
            Rhythms.Steady(60).Set(EctopyKeys.AtrialPattern, "random").Set(EctopyKeys.AtrialPercent, 10).Set(EctopyKeys.AtrialCouplingPercent, 70)
                .Set(EctopyKeys.AtrialResetPercent, 110),
            2,
            600);
        HeartEvent[] beats = [.. heart.Events];
        int found = 0;
        for (int i = 1; i < beats.Length - 1; i++)
        {
            if (beats[i].Class == BeatClass.AtrialPremature)
            {
                found++;
                Assert.That(beats[i].Seconds - beats[i - 1].Seconds, Is.EqualTo(0.7).Within(1e-9));
                Assert.That(beats[i + 1].Seconds - beats[i].Seconds, Is.EqualTo(1.1).Within(1e-9));
                Assert.That(beats[i].HasP, Is.True);
            }
        }

        Assert.That(found, Is.InRange(30, 90));
        Assert.That(heart.Events.Any(e => e.Class == BeatClass.Blocked), Is.False);
    }

    // Bigeminy, trigeminy, quadrigeminy: every second, third, fourth beat is ectopic (terms of the trade).
    [TestCase("bigeminy", 2)]
    [TestCase("trigeminy", 3)]
    [TestCase("quadrigeminy", 4)]
    public void Patterns_EveryNthBeatIsEctopic(string pattern, int every)
    {
        foreach (ChoiceKey key in new[] { EctopyKeys.VentricularPattern, EctopyKeys.AtrialPattern })
        {
            BeatClass[] classes = new Rhythms(new KeyValues().Set(key, pattern), 3, 120).ClassesFrom(5);
            int[] ectopic = [.. Enumerable.Range(0, classes.Length).Where(i => classes[i] != BeatClass.Normal)];
            Assert.That(ectopic, Has.Length.GreaterThan(20));
            Assert.That(ectopic.Skip(1).Zip(ectopic, (b, a) => b - a), Is.All.EqualTo(every));
        }
    }

    [TestCase(2, BeatClass.VentricularPremature)]
    [TestCase(5, BeatClass.VentricularRun)]
    public void Groups_HaveTheirLengthRateAndClass(int length, BeatClass label)
    {
        var heart = new Rhythms(
            Rhythms.Steady(70).Set(EctopyKeys.VentricularPattern, "random").Set(EctopyKeys.VentricularPercent, 5)
                .Set(EctopyKeys.VentricularGroup, length).Set(EctopyKeys.GroupRateBpm, 150),
            4,
            900);
        HeartEvent[] beats = [.. heart.Events.Where(e => e.Class != BeatClass.Blocked)];
        int inGroup = 0;
        int groups = 0;
        for (int i = 1; i < beats.Length; i++)
        {
            if (beats[i].Class == label)
            {
                inGroup++;
                if (beats[i - 1].Class == label)
                {
                    Assert.That(beats[i].Seconds - beats[i - 1].Seconds, Is.EqualTo(0.4).Within(1e-9));
                }
            }
            else if (inGroup > 0)
            {
                Assert.That(inGroup, Is.EqualTo(length));
                Assert.That(beats[i].Seconds - beats[i - 1].Seconds, Is.GreaterThan(0.32));
                inGroup = 0;
                groups++;
            }
        }

        Assert.That(groups, Is.GreaterThan(15));
        Assert.That(heart.Events.Zip(heart.Events.Skip(1), (a, b) => b.Seconds - a.Seconds), Is.All.GreaterThanOrEqualTo(0));
    }

    // PP 800 ms, PR 160, 240, 280 ms, then a drop (4:3): RR = 880, 840, 1480 ms, repeating (computed from the definition).
    [Test]
    public void BlockType1_KnownAnswer()
    {
        var heart = new Rhythms(Rhythms.Steady(75).Set(HeartKeys.Rhythm, "second_degree_block_type_1"), 5, 60);
        HeartEvent[] beats = [.. heart.Events.Where(e => e.Class != BeatClass.Blocked)];
        int first = Array.FindIndex(beats, 1, e => e.ExtraPrSeconds == 0);
        for (int i = first; i + 3 < beats.Length; i += 3)
        {
            Assert.That(beats[i + 1].ExtraPrSeconds * 1e3, Is.EqualTo(80).Within(1e-9));
            Assert.That(beats[i + 2].ExtraPrSeconds * 1e3, Is.EqualTo(120).Within(1e-9));
            Assert.That((beats[i + 1].Seconds - beats[i].Seconds) * 1e3, Is.EqualTo(880).Within(1e-6));
            Assert.That((beats[i + 2].Seconds - beats[i + 1].Seconds) * 1e3, Is.EqualTo(840).Within(1e-6));
            Assert.That((beats[i + 3].Seconds - beats[i + 2].Seconds) * 1e3, Is.EqualTo(1480).Within(1e-6));
        }

        Assert.That(heart.Events.Count(e => e.Class == BeatClass.Blocked), Is.EqualTo(heart.Events.Count / 4.0).Within(1.5));
    }

    // Type 2: PR stays, the pause is two PP (textbook).
    [TestCase(2)]
    [TestCase(3)]
    [TestCase(5)]
    public void BlockType2_PauseIsTwoPp(int cycle)
    {
        var heart = new Rhythms(
            Rhythms.Steady(75).Set(HeartKeys.Rhythm, "second_degree_block_type_2").Set(BlockKeys.PWavesPerCycle, cycle), 6, 60);
        double[] rr = heart.RrMs;
        Assert.That(rr, Is.All.EqualTo(800).Within(1e-6).Or.EqualTo(1600).Within(1e-6));
        Assert.That(rr.Count(v => v > 1500), Is.EqualTo(rr.Length / (cycle - 1.0)).Within(1.5));
        Assert.That(heart.Events.All(e => e.ExtraPrSeconds == 0), Is.True);
    }

    [TestCase("junctional", 50, BeatClass.JunctionalEscape)]
    [TestCase("ventricular", 30, BeatClass.VentricularEscape)]
    public void BlockThirdDegree_EscapeAndSinusGoTheirOwnWays(string escape, double rateBpm, BeatClass label)
    {
        var heart = new Rhythms(
            Rhythms.Steady(80).Set(HeartKeys.Rhythm, "third_degree_block").Set(BlockKeys.Escape, escape).Set(BlockKeys.EscapeRateBpm, rateBpm),
            7,
            600);
        double[] p = [.. heart.Events.Where(e => e.Class == BeatClass.Blocked).Select(e => e.Seconds)];
        Assert.That(p.Skip(1).Zip(p, (b, a) => b - a), Is.All.EqualTo(0.75).Within(1e-9));
        Assert.That(heart.ClassesFrom(-8), Is.All.EqualTo(label));

        // 2 % spread over some hundred intervals: four standard errors are below 0.6 %.
        Assert.That(Moments.Mean(heart.RrMs), Is.EqualTo(60e3 / rateBpm).Within(0.6).Percent);
    }

    // RMSSD = √2 SD for uncorrelated intervals; mean 700 ms, CV 0.24 give 238 ms; right-skewed, floor 300 ms (Hennig et al. 2006).
    [Test]
    public void Fibrillation_HasTheStatisticsOfTheLiterature()
    {
        double[] rr = new Rhythms(new KeyValues().Set(HeartKeys.RateBpm, 60 / 0.7).Set(HeartKeys.Rhythm, "atrial_fibrillation"), 8, 7200).RrMs;
        double mean = Moments.Mean(rr);
        double sd = Moments.Sd(rr);
        Assert.That(mean, Is.EqualTo(700).Within(7));
        Assert.That(sd / mean, Is.EqualTo(0.24).Within(0.01));
        Assert.That(Moments.Rmssd(rr), Is.EqualTo(238).Within(10));
        Assert.That(rr.Min(), Is.GreaterThan(300));
        Assert.That(rr.Average(v => Math.Pow((v - mean) / sd, 3)), Is.InRange(0.8, 2.5), "skewness");
        double lag = 0;
        for (int i = 1; i < rr.Length; i++)
        {
            lag += (rr[i] - mean) * (rr[i - 1] - mean) / (sd * sd * (rr.Length - 1));
        }

        Assert.That(lag, Is.EqualTo(0).Within(4 / Math.Sqrt(rr.Length)), "correlation of successive intervals");

        // RMSSD over mean above 0.1 tells fibrillation (Dash et al. 2009).
        Assert.That(Moments.Rmssd(rr) / mean, Is.GreaterThan(0.1));
    }

    // 300 flutter waves a minute: 2:1 gives 150, 4:1 gives 75 bpm (common practice).
    [TestCase("2_to_1", 150)]
    [TestCase("3_to_1", 100)]
    [TestCase("4_to_1", 75)]
    public void Flutter_ConductsAWholeNumberOfWaves(string conduction, double rateBpm)
    {
        double[] rr = new Rhythms(
            new KeyValues().Set(HeartKeys.Rhythm, "atrial_flutter").Set(AtrialArrhythmiaKeys.FlutterConduction, conduction), 9, 600).RrMs;
        Assert.That(60e3 / Moments.Mean(rr), Is.EqualTo(rateBpm).Within(1.5).Percent);
        Assert.That(Moments.Sd(rr), Is.LessThan(0.02 * Moments.Mean(rr)));
    }

    [Test]
    public void Flutter_Variable_TakesTwoToFourWaves()
    {
        double[] rr = new Rhythms(
            new KeyValues().Set(HeartKeys.Rhythm, "atrial_flutter").Set(AtrialArrhythmiaKeys.FlutterConduction, "variable"), 10, 600).RrMs;
        double[] waves = [.. rr.Select(v => v / 200)];
        Assert.That(waves.Select(w => Math.Round(w)).Distinct().Order(), Is.EqualTo(new[] { 2.0, 3, 4 }));
        Assert.That(waves.Select(w => Math.Abs(w - Math.Round(w))).Max(), Is.LessThan(0.15));
    }

    [Test]
    public void Tachycardia_HasItsRateAndHidesTheSinusNode()
    {
        var heart = new Rhythms(Rhythms.Steady(75).Set(HeartKeys.Rhythm, "ventricular_tachycardia"), 11, 300);
        Assert.That(60e3 / Moments.Mean(heart.RrMs), Is.EqualTo(170).Within(0.5).Percent);
        Assert.That(heart.ClassesFrom(-8), Is.All.EqualTo(BeatClass.VentricularRun));
        Assert.That(heart.Events.Count(e => e.Class == BeatClass.Blocked), Is.EqualTo(308 / 0.8).Within(3));
    }

    [Test]
    public void Paced_IntervalsDoNotVary()
    {
        var heart = new Rhythms(
            new KeyValues().Set(HeartKeys.Rhythm, "paced").Set(VentricularKeys.PacingRateBpm, 70).Set(VentricularKeys.PacingMode, "dual"), 12, 60);
        Assert.That(heart.RrMs, Is.All.EqualTo(60e3 / 70).Within(1e-6));
        Assert.That(heart.Events.All(e => e.HasAtrialSpike && e.HasVentricularSpike && e.HasP && e.PrSeconds == 0.16), Is.True);
    }

    [TestCase("asystole")]
    [TestCase("ventricular_fibrillation")]
    public void SilentRhythms_HaveNoBeats(string rhythm) =>
        Assert.That(new Rhythms(new KeyValues().Set(HeartKeys.Rhythm, rhythm), 13, 60).Events, Is.Empty);

    // 3 s and more is a sinus pause (guideline of 2018, from memory).
    [Test]
    public void Pauses_ComeOnceInEveryStretch()
    {
        double[] rr = new Rhythms(Rhythms.Steady(60).Set(HeartKeys.PauseS, 3.2).Set(HeartKeys.PauseEveryS, 30), 14, 600, 0).RrMs;
        Assert.That(rr.Count(v => v > 3000), Is.EqualTo(20).Within(1));
        Assert.That(rr, Is.All.EqualTo(1000).Within(1e-6).Or.EqualTo(3200).Within(1e-6));
    }

    [Test]
    public void Scripted_FollowsTheListFromTheStatedInstant()
    {
        ScriptedBeat[] list =
        [
            new(BeatClass.Normal, 0.8), new(BeatClass.Normal, 0.48), new(BeatClass.VentricularPremature, 1.12), new(BeatClass.AtrialPremature, 0.9),
        ];
        KeyValues values = new KeyValues().Set(HeartKeys.Rhythm, "scripted").Attach(HeartKeys.Beats, list);
        var heart = new Rhythms(values, 15, 100);
        HeartEvent[] beats = [.. heart.Events.Where(e => e.Seconds >= 0.5)];
        double at = 0.5;
        for (int i = 0; i < beats.Length; i++)
        {
            Assert.That(beats[i].Class, Is.EqualTo(list[i % 4].Class));
            Assert.That(beats[i].Seconds, Is.EqualTo(at).Within(1e-9));
            at += list[i % 4].RrSeconds;
        }

        Assert.That(heart.Events[0].Seconds, Is.LessThan(-6));
        Assert.That(heart.Events.Where(e => e.Seconds < 0.5).All(e => e.Class == BeatClass.Normal), Is.True);
    }

    // Every rhythm into every other: events stay in order, none lies behind the horizon that was promised, and each stretch has its own.
    [Test]
    public void Changes_FromAnyRhythmToAnyOther_KeepTheOrder(
        [ValueSource(nameof(AllRhythms))] string from, [ValueSource(nameof(AllRhythms))] string to)
    {
        KeyValues values = new KeyValues().Set(HeartKeys.Rhythm, from).Set(EctopyKeys.VentricularPattern, "random").Set(EctopyKeys.VentricularGroup, 6)
            .Set(EctopyKeys.VentricularPercent, 30).SetChanges(HeartKeys.Rhythm, [(20.3, to), (40.1, from), (40.2, to), (60, from)]);
        for (ulong seed = 0; seed < 4; seed++)
        {
            var engine = new RhythmEngine(values, seed, new Breathing.BreathingModel(values, seed), new Body.Ecg.AtrialActivity(values, seed), -8);
            double horizon = double.NegativeInfinity;
            double last = double.NegativeInfinity;
            double lastR = double.NegativeInfinity;
            while (engine.HorizonSeconds < 80)
            {
                bool isNew = engine.TryNext(out HeartEvent item);
                if (isNew)
                {
                    Assert.That(item.Seconds, Is.GreaterThanOrEqualTo(last));
                    Assert.That(item.Seconds, Is.GreaterThanOrEqualTo(horizon), "nothing lies behind the horizon");
                    last = item.Seconds;
                    if (item.Class != BeatClass.Blocked)
                    {
                        Assert.That(item.Seconds - lastR, Is.GreaterThan(0.19));
                        lastR = item.Seconds;
                    }
                }

                Assert.That(engine.HorizonSeconds, Is.GreaterThanOrEqualTo(horizon));
                horizon = engine.HorizonSeconds;
            }
        }
    }

    private static IEnumerable<string> AllRhythms() => HeartKeys.Rhythm.Choices;
}
