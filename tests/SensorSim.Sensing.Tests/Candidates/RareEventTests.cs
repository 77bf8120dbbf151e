// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Candidates;

/// <summary>Rare samples and stretches against what each candidate says by itself: looking ahead changes no answer.</summary>
public sealed class RareEventTests
{
    private const int Rate = 100;

    // Forward, back again, over what is known to be clear, and with nothing in the range.
    [Test]
    public void RareSamples_AnyRange_AreThoseOfTheirCandidates([Values(0, 20, 900, 15_625)] double perMillion)
    {
        var random = new KeyedRandom(12, "tests.rare_samples");
        var samples = new RareSamples(random, perMillion);
        foreach (long from in new long[] { 0, 1, 63, 64, 250, 500, 5000, 1023, 1024, 70_000, 69_999, 3, 70_100 })
        {
            foreach (int length in new[] { 0, 1, 2, 64, 250, 3000, 250, 1 })
            {
                long expected = Enumerable.Range(0, length).Select(i => from + i).FirstOrDefault(i => IsRare(random, i, perMillion), from + length);
                Assert.That(samples.Next(from, from + length, out uint spare), Is.EqualTo(expected), $"{length} from {from}");
                Assert.That(spare, Is.EqualTo(expected < from + length ? random.Word((4 * (expected / 64)) + 2) : 0));
            }
        }
    }

    [Test]
    public void RareSamples_ReadOn_AreAllFound([Values(1, 17, 250, 9000)] int piece)
    {
        var random = new KeyedRandom(13, "tests.rare_samples");
        var samples = new RareSamples(random, 2000);
        List<long> found = [];
        for (long from = 0; from < 50_000; from += piece)
        {
            for (long at = samples.Next(from, from + piece, out _); at < from + piece; at = samples.Next(at + 1, from + piece, out _))
            {
                found.Add(at);
            }
        }

        Assert.That(found.Where(i => i < 50_000), Is.EqualTo(Enumerable.Range(0, 50_000).Select(i => (long)i).Where(i => IsRare(random, i, 2000))));
        Assert.That(found, Has.Count.GreaterThan(60));
    }

    // Whoever trusts what is said to be clear passes over none, and need not ask for long.
    [Test]
    public void RareSamples_ClearUntil_IsUpToTheNextOneOrNearIt([Values(20, 900, 15_625)] double perMillion)
    {
        const int Samples = 100_000;
        var random = new KeyedRandom(15, "tests.rare_samples");
        var samples = new RareSamples(random, perMillion);
        int asked = 0;
        for (long from = 0; from < Samples; from += 250)
        {
            if (samples.Next(from, from + 1, out _) == from + 1)
            {
                int clear = (int)(samples.ClearUntil - from);
                Assert.That(clear, Is.Positive);
                Assert.That(Enumerable.Range(0, clear).Any(i => IsRare(random, from + i, perMillion)), Is.False, $"from {from}");
                asked += clear >= 64 || IsRare(random, from + clear, perMillion) ? 0 : 1;
            }
        }

        Assert.That(asked, Is.LessThan(Samples / 250 / 4));
    }

    // Alone and overlapping, shorter than a sample and longer than a piece; one copy goes on in the middle.
    [Test]
    public void TimedStretches_InAnyPieces_CoverWhatTheirTimesSay(
        [Values(0.004, 0.3, 2.5)] double lengthSeconds, [Values(0.003, 0.6)] double perSecond, [Values(1, 17, 100, 4096)] int piece)
    {
        const int Samples = 60_000;
        var random = new KeyedRandom(14, "tests.timed_stretches");
        var candidates = new EvenCandidates(random, 1);
        bool[] expected = new bool[Samples];
        foreach (double begin in Enumerable.Range(0, Samples / Rate).Where(k => candidates.IsEvent(k, perSecond)).Select(k => candidates.Seconds(k)))
        {
            for (long i = (long)Math.Ceiling(begin * Rate); i < Math.Min(Samples, (long)Math.Ceiling((begin + lengthSeconds) * Rate)); i++)
            {
                expected[i] = true;
            }
        }

        SampleStretches stretches = new TimedStretches(new RareTimes(random, perSecond), lengthSeconds, Rate);
        bool[] covered = new bool[Samples];
        for (long from = 0; from < Samples; from += piece)
        {
            long end = Math.Min(Samples, from + piece);
            for (long at = stretches.Next(from, end); at < end; at = stretches.Next(at, end))
            {
                long until = Math.Min(end, stretches.End);
                covered.AsSpan((int)at, (int)(until - at)).Fill(true);
                at = until;
            }

            stretches = from == 30 * piece ? stretches.Copy() : stretches;
        }

        Assert.That(covered, Is.EqualTo(expected));
        Assert.That(expected, Has.Some.True);
    }

    private static bool IsRare(KeyedRandom random, long index, double perMillion)
    {
        long stretch = index / 64;
        return random.Uniform(4 * stretch) < perMillion * 64e-6 && random.Word((4 * stretch) + 1) % 64 == index % 64;
    }
}
