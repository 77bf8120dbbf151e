// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Tests.Shared;

namespace SensorSim.FixedPoint.Tests;

/// <summary>What is computed in lanes is what one value after the other gives, to the bit, at the ends of the words too.</summary>
[TestFixture]
[NeedsLanes]
public sealed class LanesTests
{
    private static readonly int[] s_ends = [0, 1, -1, 2, int.MaxValue, int.MinValue, int.MaxValue - 1, int.MinValue + 1];

    [Test]
    public void RunningSum_OfAnyValues_IsOneAdditionAfterTheOther() => ForManyVectors((values, random) =>
    {
        int sum = random.Next(int.MinValue, int.MaxValue);
        Vector256<int> sums = RunningSum.Of(values, Vector256.Create(sum));
        for (int i = 0; i < Lanes.Count; i++)
        {
            sum = unchecked(sum + values[i]);
            Assert.That(sums[i], Is.EqualTo(sum), $"lane {i}");
        }

        Assert.That(RunningSum.Last(sums), Is.EqualTo(Vector256.Create(sum)));
    });

    [Test]
    public void LaneDelay_OfTwoVectors_IsThePlaceSoManyBefore() => ForManyVectors((older, random) =>
    {
        Vector256<int> newer = Any(random);
        for (int samples = 0; samples <= Lanes.Count; samples++)
        {
            Vector256<int> delayed = new LaneDelay(samples).Of(newer, older);
            for (int i = 0; i < Lanes.Count; i++)
            {
                Assert.That(delayed[i], Is.EqualTo(i >= samples ? newer[i - samples] : older[Lanes.Count + i - samples]), $"{samples} samples, lane {i}");
            }
        }
    });

    [Test]
    public void AcrossLanes_OfFourDoubleWords_AreTheirLowerWordsAndTheSumOfThese() => ForManyVectors((values, _) =>
    {
        Vector128<int> lower = AcrossLanes.LowerHalves(values.AsInt64());
        for (int i = 0; i < 4; i++)
        {
            Assert.That(lower[i], Is.EqualTo(values[2 * i]), $"lane {i}");
        }

        Assert.That(AcrossLanes.Sum(lower), Is.EqualTo(unchecked(values[0] + values[2] + values[4] + values[6])));
    });

    [Test]
    public void Products_OfHalvesUpToTheirBound_AreSummedExactly()
    {
        var random = new Random(5051);
        for (int trial = 0; trial < 500; trial++)
        {
            short[] one = new short[8 * random.Next(1, 9)];
            short[] other = new short[one.Length];
            for (int i = 0; i < one.Length; i++)
            {
                one[i] = (short)(trial % 3 == 0 ? -8192 : random.Next(-8192, 8193));
                other[i] = (short)(trial % 3 == 0 ? (trial % 2 == 0 ? 8192 : -8192) : random.Next(-8192, 8193));
            }

            Assert.That(AcrossLanes.Products(one, other), Is.EqualTo(one.Zip(other, (a, b) => (long)a * b).Sum()));
        }
    }

    [Test]
    public void AcrossLanes_OfAnyValues_IsWhatALoopGives() => ForManyVectors((values, _) =>
    {
        int[] all = [.. Enumerable.Range(0, Lanes.Count).Select(i => values[i])];
        Assert.That(AcrossLanes.Highest(values), Is.EqualTo(all.Max()));
        Assert.That(AcrossLanes.Lowest(values), Is.EqualTo(all.Min()));
        Assert.That(AcrossLanes.Sum(values), Is.EqualTo(unchecked((int)all.Sum(value => (long)value))));
        Vector256<int> positive = values & Vector256.Create(int.MaxValue);
        Assert.That(AcrossLanes.WideSum(positive), Is.EqualTo(Enumerable.Range(0, Lanes.Count).Sum(i => (long)positive[i])));
    });

    [Test]
    public void MiddleLanes_OfAnyValues_AreTheFourthAndTheFifth() => ForManyVectors((values, random) =>
    {
        // Few different values, so that many are equal; and as they are.
        Vector256<int> few = values & Vector256.Create(random.Next(8));
        foreach (Vector256<int> eight in (Vector256<int>[])[values, few])
        {
            int[] sorted = [.. Enumerable.Range(0, Lanes.Count).Select(i => eight[i]).Order()];
            MiddleLanes.Of(eight, out int lower, out int upper);
            Assert.That((lower, upper), Is.EqualTo((sorted[3], sorted[4])), string.Join(' ', sorted));
        }
    });

    private static void ForManyVectors(Action<Vector256<int>, Random> check)
    {
        var random = new Random(20);
        for (int i = 0; i < 20_000; i++)
        {
            check(Any(random), random);
        }
    }

    private static Vector256<int> Any(Random random)
    {
        Span<int> values = stackalloc int[Lanes.Count];
        int bits = random.Next(1, 33);
        foreach (ref int value in values)
        {
            value = random.Next(4) == 0 ? s_ends[random.Next(s_ends.Length)] : (int)(random.NextInt64(1L << 32) - (1L << 31)) >> (32 - bits);
        }

        return Vector256.Create<int>(values);
    }
}
