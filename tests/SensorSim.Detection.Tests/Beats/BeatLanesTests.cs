// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.FixedPoint;
using SensorSim.Tests.Shared;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>A stretch in lanes says what one sample after the other says.</summary>
[TestFixture]
[NeedsLanes]
public sealed class BeatLanesTests
{
    private static readonly int[] s_rates = [100, 101, 125, 128, 160, 199, 200, 240, 250, 255, 256];

    [TestCaseSource(nameof(s_rates))]
    public void Take_Disturbed_FindsTheSameAsOneByOne(int rateHz)
    {
        for (int seed = 0; seed < 6; seed++)
        {
            (int[] codes, ushort[] status) = Disturbed(rateHz, seed);
            List<string> one = Told(codes, status, rateHz, new OneByOne(), new Random(1), mostInCut: 300);
            Assert.That(one, Has.Count.GreaterThan(40));
            foreach (int mostInCut in (int[])[9, 40, 300, 100_000])
            {
                Assert.That(Told(codes, status, rateHz, default(NoProbe), new Random(seed), mostInCut), Is.EqualTo(one), $"seed {seed}, cuts of up to {mostInCut}");
            }
        }
    }

    // Beats as large as the converter allows, and jumps to either rail: differences of all bits, magnitudes that clip.
    [Test]
    public void Take_AtTheRails_FindsTheSameAsOneByOne()
    {
        const int Rail = 8_388_607;
        for (int seed = 0; seed < 20; seed++)
        {
            var random = new Random(seed);
            int[] codes = new SyntheticEcg { RateBpm = 60 + (5 * seed) }.Make(60, seed + 1);
            int jumpAt = 8 * 250;
            for (int i = 0; i < codes.Length; i++)
            {
                codes[i] = Math.Clamp(codes[i] * 12_000, -Rail - 1, Rail);
                if (i >= jumpAt)
                {
                    codes[i] = random.Next(2) == 0 ? Rail : -Rail - 1;
                    jumpAt = random.Next(3) == 0 ? i + random.Next(3 * 250) : jumpAt;
                }
            }

            List<string> one = Told(codes, [], 250, new OneByOne(), new Random(1), mostInCut: 300);
            Assert.That(one, Has.Count.GreaterThan(10));
            Assert.That(Told(codes, [], 250, default(NoProbe), new Random(seed), mostInCut: 300), Is.EqualTo(one), $"seed {seed}");
        }
    }

    [Test]
    public void Template_OfAnySlopes_IsWhatALoopGives()
    {
        var random = new Random(3);
        for (int n = 0; n < 20_000; n++)
        {
            Slopes16 slopes = default;
            Slopes16 other = default;
            long energy = 0;
            long dot = 0;
            for (int i = 0; i < Slopes16.Length; i++)
            {
                slopes[i] = (short)(random.Next(6) == 0 ? -4096 : random.Next(-4096, 4096) >> random.Next(12));
                other[i] = (short)(random.Next(6) == 0 ? -4096 : random.Next(-4096, 4096));
                energy += slopes[i] * slopes[i];
                dot += slopes[i] * other[i];
            }

            long first = 0;
            long second = 0;
            for (int i = 0; i < Slopes16.Length; i++)
            {
                first += (slopes[i] * slopes[i] >> 4) * (i - 7);
                second += (long)slopes[i] * slopes[i] * (i - 7) * (i - 7);
            }

            long below = (energy >> 4) + 1;
            long centre = ((32 * Math.Abs(first)) + below) / (2 * below);
            BeatTemplate template = default;
            template.Begin(other, 0);
            Assert.That(BeatTemplate.Energy(slopes), Is.EqualTo(energy));
            Assert.That(template.Dot(slopes), Is.EqualTo(dot));
            Assert.That(BeatTemplate.SpreadOf(slopes), Is.EqualTo((((2 * second) + below) / (2 * below)) - ((centre * centre) >> 4)));
        }
    }

    private static (int[] Codes, ushort[] Status) Disturbed(int rateHz, int seed)
    {
        const int Seconds = 60;
        var random = new Random(100 + seed);
        var ecg = new SyntheticEcg { RateHz = rateHz, RateBpm = 50 + (20 * seed), NoiseMillivolts = 0.02 * seed, EctopicShare = 0.1, Sign = seed % 2 == 0 ? 1 : -1 };
        int[] codes = ecg.Make(Seconds, seed + 1);
        BeatStream.AddTransients(codes, rateHz, seed, perMinute: 5 * seed, peakMillivolts: 2);
        var status = new ushort[codes.Length];
        for (int i = 0; i < status.Length; i++)
        {
            status[i] = random.Next(2 * rateHz) == 0 ? SampleFlags.PacingSpike : (ushort)0;
        }

        return (codes, status);
    }

    // Everything that is told, and what the levels are when it is; cuts and gaps at random places, the gaps always the same.
    private static List<string> Told<TProbe>(int[] codes, ushort[] status, int rateHz, TProbe probe, Random random, int mostInCut)
        where TProbe : struct, IProbe
    {
        var gaps = new Random(7);
        var detector = new BeatDetector();
        Assert.That(detector.Start(rateHz, 256_000), Is.True);
        var told = new List<string>();
        int gapAt = gaps.Next(5 * rateHz);
        for (int from = 0; from < codes.Length;)
        {
            if (from >= gapAt)
            {
                from = Math.Min(codes.Length, gapAt + 1 + gaps.Next(rateHz / 2));
                gapAt = from + gaps.Next(20 * rateHz);
                detector.Restart(from);
                continue;
            }

            int count = Math.Min(Math.Min(codes.Length, gapAt) - from, 1 + random.Next(mostInCut));
            from += detector.Take(codes.AsSpan(from, count), status.Length == 0 ? default : status.AsSpan(from, count), ref probe, out bool isBeat);
            if (isBeat)
            {
                told.Add($"{detector.Event} {detector.SignalLevel} {detector.NoiseLevel} {detector.SinceBeatSamples} {detector.NextIndex}");
            }
        }

        while (detector.Flush())
        {
            told.Add($"{detector.Event} {detector.SignalLevel} {detector.NoiseLevel}");
        }

        return told;
    }

    /// <summary>Wants to see every sample, so that each goes through the stages by itself.</summary>
    private readonly struct OneByOne : IProbe
    {
        public int MostAtOnce => 1;

        public void See(ProbePoint point, int value)
        {
        }
    }
}
