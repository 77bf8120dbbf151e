// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using CsCheck;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Randomness;

public sealed class KeyedRandomTests
{
    private static readonly KeyedRandom s_random = new(42, "tests.keyed");

    [Test]
    public void Word_ByIndex_IsWordOfThePhiloxBlock()
    {
        ulong source = SourceName.Hash("tests.keyed");
        for (long index = -9; index < 9; index++)
        {
            Philox.Draw(unchecked((ulong)(index >> 2)), source, 42, out ulong low, out ulong high);
            uint[] words = unchecked([(uint)low, (uint)(low >> 32), (uint)high, (uint)(high >> 32)]);
            Assert.That(s_random.Word(index), Is.EqualTo(words[(int)(index & 3)]), $"draw {index}");
        }
    }

    [Test]
    public void Normal_AskedForInAnyOrder_GivesTheSameValues()
    {
        double[] forward = [.. Enumerable.Range(0, 500).Select(i => s_random.Normal(i))];
        double[] backward = [.. Enumerable.Range(0, 500).Reverse().Select(i => s_random.Normal(i)).Reverse()];
        Assert.That(backward, Is.EqualTo(forward));
        Assert.That(forward.Distinct().Count(), Is.EqualTo(500));
    }

    [Test]
    public void Word_OtherSeedOrName_GivesOtherWords()
    {
        Assert.That(new KeyedRandom(43, "tests.keyed").Word(0), Is.Not.EqualTo(s_random.Word(0)));
        Assert.That(new KeyedRandom(42, "tests.keyed2").Word(0), Is.Not.EqualTo(s_random.Word(0)));
    }

    [Test]
    public void Uniform_OfAWord_IsItsMiddle() =>
        Assert.That(s_random.Uniform(7), Is.EqualTo((s_random.Word(7) + 0.5) / 4294967296.0).And.GreaterThan(0).And.LessThan(1));

    [Test]
    public void AddNormals_EveryAlignmentAndLength_IsTheSameAsByIndex([Values(0.0, 1.0, -0.37)] double scale)
    {
        for (long first = -21; first < 21; first++)
        {
            for (int length = 0; length < 70; length++)
            {
                AssertSameAsByIndex(s_random, first, length, scale);
            }
        }
    }

    [Test]
    public void AddNormals_AnySeedAndPlace_IsTheSameAsByIndex() =>
        Gen.Select(Gen.ULong, Gen.Long, Gen.Int[0, 200]).Sample(
            (seed, first, length) => AssertSameAsByIndex(new KeyedRandom(seed, "tests.anywhere"), first, length, 1.5), iter: 2000, threads: 1);

    // Long enough to show another order of rounding, which changes few of the last bits.
    [Test]
    public void AddNormals_MillionDraws_AreTheSameAsByIndex() => AssertSameAsByIndex(s_random, -5, 1_000_000, 1);

    // The draws farthest out, which the first rows of the table give, and one beside the middle; found by search.
    [TestCase(360_220_693, 1u)]
    [TestCase(1_000_153_348, uint.MaxValue)]
    [TestCase(4_188_702_582, 0u)]
    [TestCase(391_471_365, 0x7FFF_FFFFu)]
    public void AddNormals_RarestWords_AreTheSameAsByIndex(long index, uint word)
    {
        Assert.That(s_random.Word(index), Is.EqualTo(word));
        for (int before = 0; before < 9; before++)
        {
            AssertSameAsByIndex(s_random, index - before, 20, 1);
        }
    }

    // Where the low half of the counter runs over into the high half, and where the counter itself does.
    [TestCase((1L << 34) - 24)]
    [TestCase(-24)]
    [TestCase(long.MaxValue - 199)]
    [TestCase(long.MinValue)]
    public void AddNormals_AcrossCounterLimits_IsTheSameAsByIndex(long first) => AssertSameAsByIndex(s_random, first, 100, 2);

    [Test]
    public void Normals_AfterWarmUp_AllocateNothing()
    {
        var buffer = new double[1003];
        s_random.AddNormals(buffer, 0, 1);
        s_random.FillNormals(buffer, 0, 1);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 100; i++)
        {
            s_random.AddNormals(buffer, i, 1);
            s_random.FillNormals(buffer, i, 1);
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
    }

    private static void AssertSameAsByIndex(KeyedRandom random, long first, int length, double scale)
    {
        var expected = new double[length];
        var actual = new double[length];
        for (int i = 0; i < length; i++)
        {
            // Zeros let the last bit of the draw show, other values show that it is added.
            actual[i] = i % 3;
            expected[i] = (i % 3) + (scale * random.Normal(unchecked(first + i)));
        }

        random.AddNormals(actual, first, scale);
        if (!actual.AsSpan().SequenceEqual(expected))
        {
            Assert.That(actual, Is.EqualTo(expected), $"from draw {first}");
        }

        // Written instead of added: the same as added to zeros, to the bit, signs of zeros included.
        for (int i = 0; i < length; i++)
        {
            expected[i] = 0 + (scale * random.Normal(unchecked(first + i)));
        }

        random.FillNormals(actual, first, scale);
        bool isSame = MemoryMarshal.AsBytes(actual.AsSpan()).SequenceEqual(MemoryMarshal.AsBytes(expected.AsSpan()));
        Assert.That(isSame, Is.True, $"{length} written from draw {first}");
    }
}
