// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Delivery;

public sealed class ComingSampleTests
{
    private const long Length = 200_000;

    // Rare ones lie beyond what is looked ahead, frequent ones several to a range.
    [TestCase(15_625)]
    [TestCase(2000)]
    [TestCase(50)]
    [TestCase(5)]
    [TestCase(0)]
    public void Next_ForwardInAnyRanges_GivesTheSamplesThatAreThere(double perMillion)
    {
        var random = new KeyedRandom(11, "tests.coming_samples");
        List<(long, uint)> all = Found(new RareSamples(random, perMillion).Next, [Length]);
        Gen.Long[1, 9000].Array[1, 7].Sample(
            cuts => Assert.That(Found(new ComingSamples(new RareSamples(random, perMillion)).Next, cuts), Is.EqualTo(all)),
            iter: 40,
            threads: 1);
    }

    // Who skips a range hears nothing of the samples in it.
    [Test]
    public void Next_AfterARangeNobodyAskedFor_GoesOnBehindIt()
    {
        var random = new KeyedRandom(11, "tests.coming_samples");
        var whole = new RareSamples(random, 2000);
        var coming = new ComingSamples(whole);
        for (long from = 0; from < Length; from += 700)
        {
            long expected = whole.Next(from, from + 300, out uint word);
            Assert.That(coming.Next(from, from + 300, out uint spare), Is.EqualTo(expected));
            Assert.That(spare, Is.EqualTo(word));
        }
    }

    private delegate long Finder(long from, long until, out uint spare);

    private static List<(long Place, uint Spare)> Found(Finder next, long[] cuts)
    {
        List<(long, uint)> found = [];
        int cut = 0;
        for (long from = 0; from < Length;)
        {
            long end = Math.Min(Length, from + cuts[cut++ % cuts.Length]);
            for (long at = next(from, end, out uint spare); at < end; at = next(at + 1, end, out spare))
            {
                found.Add((at, spare));
            }

            from = end;
        }

        return found;
    }
}
