// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Delivery;

/// <summary>Draws made many at a time are those made one by one.</summary>
public sealed class DrawTests
{
    [Test]
    public void FillWords_AnyPlaceAndLength_GivesTheWordsOneByOne()
    {
        var random = new KeyedRandom(11, "tests.words");
        foreach (long first in new long[] { -5, 0, 1, 2, 3, 4, 1_000_003, (1L << 34) - 7 })
        {
            foreach (int length in new[] { 0, 1, 3, 4, 15, 16, 17, 40, 97 })
            {
                uint[] words = new uint[length];
                random.FillWords(words, first);
                Assert.That(words, Is.EqualTo(Enumerable.Range(0, length).Select(i => random.Word(first + i))), $"{length} from {first}");
            }
        }
    }

    [Test]
    public void SequentialDraws_AnyPlace_AreThoseOfTheSource()
    {
        var random = new KeyedRandom(11, "tests.words");
        var draws = new SequentialDraws(random);
        foreach (long index in Enumerable.Range(0, 50).Select(i => (long)i).Concat([49, 16, 1_000_000, 3]))
        {
            Assert.That(draws.Uniform(index), Is.EqualTo(random.Uniform(index)), $"draw {index}");
        }
    }

    [TestCase(0.02)]
    [TestCase(0.5)]
    [TestCase(1.0)]
    public void Below_AnyBlock_NamesTheDrawsBelowTheLimit(double limit)
    {
        var random = new KeyedRandom(11, "tests.words");
        var draws = new SequentialDraws(random);
        foreach (long block in new long[] { 0, 1, 7, 1, 62_500 })
        {
            Assert.That(draws.Uniform((block + 3) * 16), Is.EqualTo(random.Uniform((block + 3) * 16)), "a question between");
            uint below = draws.Below(block, limit);
            Assert.That(
                Enumerable.Range(0, 16).Select(i => ((below >> i) & 1) == 1),
                Is.EqualTo(Enumerable.Range(0, 16).Select(i => random.Uniform((block * 16) + i) < limit)),
                $"block {block}");
        }
    }

    // A limit at a draw itself leaves it out, the next double takes it in.
    [Test]
    public void Below_LimitAtADraw_DrawsTheLineThere()
    {
        var random = new KeyedRandom(11, "tests.words");
        var draws = new SequentialDraws(random);
        for (int i = 0; i < 16; i++)
        {
            double draw = random.Uniform(32 + i);
            Assert.That((draws.Below(2, draw) >> i) & 1, Is.Zero, $"draw {i}");
            Assert.That((draws.Below(2, Math.BitIncrement(draw)) >> i) & 1, Is.EqualTo(1), $"draw {i}");
        }
    }

    // Any order of questions, ranges that begin and end anywhere in a group of sixteen, and shares from none to all.
    [TestCase(0, 0.0)]
    [TestCase(0, 0.004)]
    [TestCase(1, 0.1)]
    [TestCase(3, 0.7)]
    [TestCase(2, 1.0)]
    public void KeptCandidates_AnyRange_AreThoseWhoseDrawIsBelowTheShare(int draw, double share)
    {
        var random = new KeyedRandom(11, "tests.words");
        var kept = new KeptCandidates(random, draw, share);
        foreach (long from in new long[] { 0, 5, 15, 16, 1000, 33, 31, 32, 1 })
        {
            foreach (long until in new[] { from, from + 1, from + 16, from + 500 })
            {
                long expected = from;
                while (expected < until && random.Uniform((4 * expected) + draw) >= share)
                {
                    expected++;
                }

                Assert.That(kept.Next(from, until), Is.EqualTo(expected), $"{from} to {until}");
            }
        }
    }
}
