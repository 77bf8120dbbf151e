// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>A silence of months: places run over 32 bits, intervals do not.</summary>
[TestFixture]
public sealed class BeatSilenceTests
{
    private const int RateHz = 250;
    private const int BeatSamples = 200;

    // A tenth of a second, an hour, and what would be −1 and 5 in 32 bits.
    [TestCase(25L, 25)]
    [TestCase(900_000L, 900_000)]
    [TestCase((1L << 32) - 1, BeatRhythm.Longest)]
    [TestCase((1L << 32) + 5, BeatRhythm.Longest)]
    [TestCase(1L << 50, BeatRhythm.Longest)]
    public void Apart_AnyLength_IsWhatItIsOrTheLongest(long samples, int apart) =>
        Assert.That(BeatRhythm.Apart((samples * 256) + 1234, 1234), Is.EqualTo(apart));

    // 2^31 samples of 250 Hz are 99.4 days.
    [Test]
    [Category("Slow")]
    public void Take_HundredDaysOfFlatEcg_FindsTheBeatsThatComeThen()
    {
        var detector = new BeatDetector();
        Assert.That(detector.Start(RateHz, 2000 * 256), Is.True);
        int[] beats = [.. Enumerable.Range(0, 5 * BeatSamples).Select(i => (int)(2000 * Math.Exp(-Math.Pow(((i % BeatSamples) - 75) / 3.0, 2) / 2)))];
        int[] flat = new int[400 * RateHz];
        int before = Found(beats, 10);
        int during = Found(flat, 100 * 86_400 / 400);
        int after = Found(beats, 10);

        Assert.That(before, Is.GreaterThan(40));
        Assert.That(during, Is.LessThan(3));
        Assert.That(after, Is.GreaterThan(40));

        int Found(int[] codes, int times)
        {
            int count = 0;
            for (int i = 0; i < times; i++)
            {
                for (int at = 0; at < codes.Length;)
                {
                    at += detector.Take(codes.AsSpan(at), out bool isFound);
                    count += isFound ? 1 : 0;
                }
            }

            return count;
        }
    }
}
