// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;
using SensorSim.Tests.Shared;

namespace SensorSim.Detection.Tests.Pulses;

/// <summary>A stretch in lanes says what one sample after the other says.</summary>
[TestFixture]
[NeedsLanes]
public sealed class PulseLanesTests
{
    // From 92 to 108 Hz stretches go in lanes; at the others they must not.
    private static readonly int[] s_rates = [50, 91, 92, 100, 104, 108, 109, 199, 200];

    [TestCaseSource(nameof(s_rates))]
    public void Take_Disturbed_FindsTheSameAsOneByOne(int rateHz)
    {
        int told = 0;
        for (int seed = 0; seed < 8; seed++)
        {
            int polarity = seed % 2 == 0 ? 1 : -1;
            int[] codes = Disturbed(rateHz, polarity, seed);
            List<string> one = Told(codes, rateHz, polarity, new OneByOne(), new Random(1), mostInCut: 300);
            told += one.Count;
            foreach (int mostInCut in (int[])[9, 40, 100, 100_000])
            {
                Assert.That(Told(codes, rateHz, polarity, default(NoProbe), new Random(seed), mostInCut), Is.EqualTo(one), $"seed {seed}, cuts of up to {mostInCut}");
            }
        }

        Assert.That(told, Is.GreaterThan(200));
    }

    // Slopes of all bits, upstrokes that take too long, thresholds that change with each block of the learning.
    [Test]
    public void Take_AtTheRails_FindsTheSameAsOneByOne()
    {
        const int Rail = 8_388_607;
        for (int seed = 0; seed < 20; seed++)
        {
            var random = new Random(seed);
            int[] codes = new SyntheticPulse { BeatS = 0.5 + (0.05 * seed), AmplitudeCodes = 4_000_000 >> random.Next(12), SnrDb = 20 }.Make(90, seed + 1);
            int jumpAt = 1500;
            int slow = 0;
            for (int i = 0; i < codes.Length; i++)
            {
                slow -= i / 500 % 3 == 1 ? random.Next(5000) : -slow >> 8;
                codes[i] = Math.Clamp(codes[i] + slow, -Rail - 1, Rail);
                if (i >= jumpAt)
                {
                    codes[i] = random.Next(2) == 0 ? Rail : -Rail - 1;
                    jumpAt = random.Next(3) == 0 ? i + random.Next(600) : jumpAt;
                }
            }

            List<string> one = Told(codes, 100, 1, new OneByOne(), new Random(1), mostInCut: 300);
            Assert.That(one, Has.Count.GreaterThan(5));
            Assert.That(Told(codes, 100, 1, default(NoProbe), new Random(seed), mostInCut: 300), Is.EqualTo(one), $"seed {seed}");
        }
    }

    private static int[] Disturbed(int rateHz, int polarity, int seed)
    {
        var random = new Random(100 + seed);
        int[] codes = new SyntheticPulse
        {
            RateHz = rateHz,
            BeatS = 0.4 + (0.15 * seed),
            Polarity = polarity,
            AmplitudeCodes = 200 << (seed % 5),
            SnrDb = 40 - (5 * seed),
            BreathingShare = 0.3,
        }.Make(80, seed + 1);
        int level = 0;
        for (int i = 0; i < codes.Length; i++)
        {
            level += random.Next(6 * rateHz) == 0 ? random.Next(-3000, 3000) : 0;
            codes[i] += level;
        }

        return codes;
    }

    // Everything that is told, and what the levels are when it is; cuts at random places, gaps and steps of the settings always at the same.
    private static List<string> Told<TProbe>(int[] codes, int rateHz, int polarity, TProbe probe, Random random, int mostInCut)
        where TProbe : struct, IProbe
    {
        var events = new Random(7);
        var detector = new PulseDetector();
        Assert.That(detector.Start(rateHz, polarity), Is.True);
        var told = new List<string>();
        int eventAt = events.Next(5 * rateHz);
        for (int from = 0; from < codes.Length;)
        {
            if (from >= eventAt)
            {
                from = Math.Min(codes.Length, eventAt + (events.Next(2) * events.Next(rateHz / 2)));
                eventAt = from + 1 + events.Next(20 * rateHz);
                if (events.Next(2) == 0)
                {
                    detector.Step(from);
                }
                else
                {
                    detector.Restart(from);
                }

                continue;
            }

            int count = Math.Min(Math.Min(codes.Length, eventAt) - from, 1 + random.Next(mostInCut));
            from += detector.Take(codes.AsSpan(from, count), ref probe, out bool isPulse);
            if (isPulse)
            {
                told.Add($"{detector.Event} {detector.SignalLevel} {detector.NoiseLevel} {detector.SincePulseSamples} {detector.NextIndex}");
            }
        }

        told.Add($"{detector.SignalLevel} {detector.NoiseLevel} {detector.SincePulseSamples} {detector.NextIndex}");
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
