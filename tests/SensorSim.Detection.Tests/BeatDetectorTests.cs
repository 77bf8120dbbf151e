// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class BeatDetectorTests
{
    [TestCase(125)]
    [TestCase(128)]
    [TestCase(200)]
    [TestCase(250)]
    [TestCase(256)]
    [TestCase(360)]
    [TestCase(500)]
    [TestCase(512)]
    [TestCase(1000)]
    public void Take_CleanSinus_FindsEveryPeakWithinAMillisecond(int rateHz)
    {
        var ecg = new SyntheticEcg { RateHz = rateHz };
        Runs.Score score = Score(ecg, 60);
        Assert.That(score.Missed, Is.Zero);
        Assert.That(score.Extra, Is.Zero);
        Assert.That(Math.Abs(score.BiasMs), Is.LessThan(0.5));
        Assert.That(score.SdMs, Is.LessThan(0.5));
    }

    [TestCase(0.5)]
    [TestCase(5)]
    [TestCase(20)]
    public void Take_OtherWeightOfABit_FindsTheSame(double microvoltsPerCode)
    {
        Runs.Score score = Score(new SyntheticEcg { MicrovoltsPerCode = microvoltsPerCode }, 60);
        Assert.That(score, Is.EqualTo(Score(new SyntheticEcg(), 60)).Using<Runs.Score>(
            (a, b) => a.Missed == b.Missed && a.Extra == b.Extra && Math.Abs(a.BiasMs - b.BiasMs) < 0.2));
    }

    [TestCase(35)]
    [TestCase(120)]
    [TestCase(200)]
    public void Take_SlowAndFastHearts_FindsEveryBeat(double rateBpm)
    {
        Runs.Score score = Score(new SyntheticEcg { RateBpm = rateBpm }, 60);
        Assert.That((score.Missed, score.Extra), Is.EqualTo((0, 0)));
    }

    [Test]
    public void Take_NegativeLead_KeepsTheSign()
    {
        var ecg = new SyntheticEcg { Sign = -1 };
        List<BeatEvent> found = Runs.Beats(ecg.Make(30, 1), 250);
        Assert.That(found, Has.Count.GreaterThan(25));
        Assert.That(found.Select(b => b.AmplitudeCodes), Is.All.InRange(-1060, -940));
    }

    [Test]
    public void Take_EctopicBeats_FindsThemAll()
    {
        Runs.Score score = Score(new SyntheticEcg { EctopicShare = 0.2, NoiseMillivolts = 0.03 }, 180);
        Assert.That((score.Missed, score.Extra), Is.EqualTo((0, 0)));
        Assert.That(Math.Abs(score.BiasMs), Is.LessThan(1));
    }

    // A T wave of up to 1.2 times the QRS must not be counted: tall-T test of heart-rate meters, IEC 60601-2-27 (from data sheets).
    [TestCase(0.6)]
    [TestCase(1.2)]
    public void Take_TallT_IsNotCounted(double tMillivolts)
    {
        Runs.Score score = Score(new SyntheticEcg { TMillivolts = tMillivolts, RateBpm = 80 }, 60);
        Assert.That((score.Missed, score.Extra), Is.EqualTo((0, 0)));
    }

    // 12 dB by the noise-stress definition: rms = (peak-to-peak / 2√2) / 10^(12/20); 1.2 mV give 0.107 mV.
    [Test]
    public void Take_WhiteNoiseAt12Db_FindsEveryBeat()
    {
        Runs.Score score = Score(new SyntheticEcg { NoiseMillivolts = 0.107 }, 300);
        Assert.That((score.Missed, score.Extra), Is.EqualTo((0, 0)));
        Assert.That(Math.Abs(score.BiasMs), Is.LessThan(1));
        Assert.That(score.SdMs, Is.LessThan(2));
    }

    [Test]
    public void Take_BeatFound_IsToldWithinHalfASecond()
    {
        List<BeatEvent> found = Runs.Beats(new SyntheticEcg { NoiseMillivolts = 0.05 }.Make(60, 3), 250);
        Assert.That(found.Select(b => b.FoundAt - b.RPeak.Sample), Is.All.InRange(1, 125));
    }

    [Test]
    public void Take_FirstBeats_AreToldAfterTwoSeconds()
    {
        List<BeatEvent> found = Runs.Beats(new SyntheticEcg().Make(20, 1), 250);
        Assert.That(Runs.Seconds(found[0].RPeak, 250), Is.LessThan(3));
        Assert.That(found[0].StartsRun, Is.True);
        Assert.That(found.Skip(1).Select(b => b.StartsRun), Is.All.False);
    }

    [Test]
    public void Take_AfterAnOverload_RecoversWithinTwoSeconds()
    {
        var ecg = new SyntheticEcg();
        int[] codes = ecg.Make(60, 1);
        for (int i = 5000; i < 5500; i++)
        {
            codes[i] = i % 100 < 50 ? 8_000_000 : -8_000_000;
        }

        double[] found = [.. Runs.Beats(codes, 250).Select(b => Runs.Seconds(b.RPeak, 250))];
        Runs.Score score = Runs.Compare(ecg.PeaksS, found, 24, 59);
        Assert.That((score.Missed, score.Extra), Is.EqualTo((0, 0)));
    }

    [Test]
    public void Take_OneBlockOrMany_GivesTheSame([Values(1, 7, 17, 250)] int block)
    {
        int[] codes = new SyntheticEcg { EctopicShare = 0.1, NoiseMillivolts = 0.1 }.Make(60, 5);
        Assert.That(Runs.Beats(codes, 250, block), Is.EqualTo(Runs.Beats(codes, 250)));
    }

    [Test]
    public void Assignment_InTheMiddle_CopiesTheWholeState()
    {
        int[] codes = new SyntheticEcg { NoiseMillivolts = 0.05 }.Make(40, 2);
        var detector = new BeatDetector();
        detector.Start(250);
        for (int i = 0; i < 5000; i++)
        {
            detector.Take(codes.AsSpan(i, 1), out _);
        }

        BeatDetector copy = detector;
        var first = new List<BeatEvent>();
        var second = new List<BeatEvent>();
        for (int i = 5000; i < codes.Length; i++)
        {
            detector.Take(codes.AsSpan(i, 1), out bool found);
            if (found)
            {
                first.Add(detector.Event);
            }
        }

        for (int i = 5000; i < codes.Length; i++)
        {
            copy.Take(codes.AsSpan(i, 1), out bool found);
            if (found)
            {
                second.Add(copy.Event);
            }
        }

        Assert.That(first, Is.Not.Empty);
        Assert.That(second, Is.EqualTo(first));
    }

    [TestCase(99)]
    [TestCase(1001)]
    public void Start_RateOutOfRange_IsRefused(int rateHz) => Assert.That(new BeatDetector().Start(rateHz), Is.False);

    [Test]
    public void State_OfTheWholeLibrary_FitsInEightKibibytes()
    {
        Assert.That(Unsafe.SizeOf<Pipeline.Library>(), Is.LessThanOrEqualTo(8192));
        Assert.That(RuntimeHelpers.IsReferenceOrContainsReferences<Pipeline.Library>(), Is.False);
    }

    private static Runs.Score Score(SyntheticEcg ecg, double durationS)
    {
        int[] codes = ecg.Make(durationS, 1);
        return Runs.Compare(ecg.PeaksS, Runs.Beats(codes, ecg.RateHz).Select(b => Runs.Seconds(b.RPeak, ecg.RateHz)), 8, durationS - 1);
    }
}
