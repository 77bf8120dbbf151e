// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Pulled electrodes: what is steep and tall but does not look like the beats, and does not move the rhythm.</summary>
[TestFixture]
public sealed class BeatMovementTests
{
    // Aim: at least 99 and 98 % where transients are as large as the R wave; without a look at the shape +P is some 15 points lower.
    [TestCase(0.5, 99.5, 98.5)]
    [TestCase(1, 99, 98)]
    [TestCase(2, 97, 95)]
    public void Take_ThirtyTransientsAMinute_FindsTheBeatsAndLittleElse(double peakMillivolts, double leastSe, double leastPp)
    {
        int matched = 0;
        int missed = 0;
        int extra = 0;
        for (int seed = 1; seed <= 3; seed++)
        {
            var ecg = new SyntheticEcg { RateBpm = 60 + (8 * seed), NoiseMillivolts = 0.01 };
            int[] codes = ecg.Make(180, seed);
            BeatStream.AddTransients(codes, 250, seed, 30, peakMillivolts);
            Runs.Score score = BeatStream.Score(ecg, BeatStream.Run(codes, 250), 180);
            matched += score.Matched;
            missed += score.Missed;
            extra += score.Extra;
        }

        double se = 100.0 * matched / (matched + missed);
        double pp = 100.0 * matched / (matched + extra);
        Assert.That(se, Is.GreaterThan(leastSe));
        Assert.That(pp, Is.GreaterThan(leastPp));
    }

    [Test]
    public void Take_EctopicBeatsAmongTransients_AreNotGivenUp()
    {
        var ecg = new SyntheticEcg { EctopicShare = 0.1, NoiseMillivolts = 0.01 };
        int[] codes = ecg.Make(300, 4);
        BeatStream.AddTransients(codes, 250, 4, 20, 0.5);
        Runs.Score score = BeatStream.Score(ecg, BeatStream.Run(codes, 250), 300);
        Assert.That(score.Missed, Is.LessThanOrEqualTo(5));
        Assert.That(score.Extra, Is.LessThanOrEqualTo(8));
    }

    [Test]
    public void Take_EctopicBeats_AreWideAndTheOthersAreNot()
    {
        var ecg = new SyntheticEcg { EctopicShare = 0.2, NoiseMillivolts = 0.02 };
        List<BeatEvent> found = BeatStream.Run(ecg.Make(120, 2), 250);

        // The ectopic beats of this ECG are 1.3 mV high, the normal ones 1 mV.
        Assert.That(found.Where(b => b.AmplitudeCodes > 1150).Select(b => b.IsWide), Is.Not.Empty.And.All.True);
        Assert.That(found.Where(b => b.AmplitudeCodes < 1100).Select(b => b.IsWide), Is.Not.Empty.And.All.False);
    }

    [Test]
    public void Take_NoBeatsForTenSeconds_TellsNone()
    {
        var ecg = new SyntheticEcg { NoiseMillivolts = 0.01 };
        int[] codes = ecg.Make(60, 3);
        var random = new Random(9);
        for (int i = 30 * 250; i < 40 * 250; i++)
        {
            codes[i] = 4000 + (int)Math.Round(10 * SyntheticEcg.Normal(random));
        }

        List<BeatEvent> found = BeatStream.Run(codes, 250);
        Assert.That(found.Where(b => b.RPeak.Sample is > (31 * 250) and < (39 * 250)), Is.Empty);
        Assert.That(found.Count(b => b.RPeak.Sample > 45 * 250), Is.InRange(15, 19));
    }

    // QRS of 100 ms, 1 mV, and a T wave of 180 ms: tall-T test of heart-rate meters, IEC 60601-2-27 (sizes from data sheets, 1.2 mV there).
    [TestCase(false, 1.2)]
    [TestCase(true, 1.2)]
    public void Take_TallTAfterAPlainQrs_IsNotCounted(bool isTriangle, double tMillivolts)
    {
        const int RateHz = 250;
        var codes = new int[60 * RateHz];
        for (int i = 0; i < codes.Length; i++)
        {
            double t = (i / (double)RateHz) % 0.75;
            double q = t - 0.2;
            double wave = q - 0.21; // QT 350 ms
            double qrs = isTriangle ? Math.Max(0, 1 - (Math.Abs(q) / 0.05)) : Math.Exp(-q * q / (2 * 0.02 * 0.02));
            double tWave = Math.Abs(wave) < 0.09 ? Math.Pow(Math.Cos(Math.PI * wave / 0.18), 2) : 0;
            codes[i] = (int)Math.Round(1000 * (qrs + (tMillivolts * tWave)));
        }

        List<BeatEvent> found = BeatStream.Run(codes, RateHz);
        double[] places = [.. found.Select(b => Runs.Seconds(b.RPeak, RateHz)).Where(t => t > 8)];
        Assert.That(places, Has.Length.InRange(68, 70));
        Assert.That(places.Select(t => Math.Abs((t % 0.75) - 0.2)), Is.All.LessThan(0.02));
        Assert.That(found.Skip(10).Select(b => b.IsWide), Is.All.False); // the first ones may be judged by what is still being learned
    }

    [Test]
    public void State_OfTheBeats_FitsInThreeKibibytes() =>
        Assert.That(System.Runtime.CompilerServices.Unsafe.SizeOf<BeatDetector>(), Is.LessThanOrEqualTo(3072));
}
