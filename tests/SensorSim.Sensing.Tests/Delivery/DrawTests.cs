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
}
