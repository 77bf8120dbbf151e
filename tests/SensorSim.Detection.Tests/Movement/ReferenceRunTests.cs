// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>Acceleration that the reference takes as a run, as long as it is still, leaves it as it is left one by one.</summary>
[TestFixture]
public sealed class ReferenceRunTests
{
    [TestCase(25)]
    [TestCase(50)]
    [TestCase(99)]
    [TestCase(100)]
    [TestCase(208)]
    public void TakeStill_RestAndMovementInTurn_IsTheSameAsOneByOne(int rateHz)
    {
        var random = new Random(5201);
        var alone = new MovementReference();
        var together = new MovementReference();
        Assert.That(alone.Start(rateHz, 4096) && together.Start(rateHz, 4096), Is.True);
        int runs = 0;
        int ends = 0;
        for (int block = 0; block < 4_000; block++)
        {
            int count = random.Next(33);
            int size = block / 50 % 4 == 3 ? 3000 : 40;
            int[] x = Axis(random, count, 0, size);
            int[] y = Axis(random, count, 900, size / 2);
            int[] z = Axis(random, count, -4000, size);
            int done = 0;
            uint expected = 0;
            while (done < count && alone.IsStill)
            {
                int before = alone.Steps;
                alone.Next(x[done], y[done], z[done]);
                expected |= alone.Steps != before ? 1u << done : 0;
                done++;
            }

            Assert.That(together.TakeStill(x, y, z, out uint stepped), Is.EqualTo(done), $"block {block}");
            Assert.That(stepped, Is.EqualTo(expected), $"block {block}");
            AssertSame(together, alone, block);
            runs += done > 1 ? 1 : 0;
            ends += done > 0 && !alone.IsStill ? 1 : 0;
            for (int i = done; i < count; i++)
            {
                alone.Next(x[i], y[i], z[i]);
                together.Next(x[i], y[i], z[i]);
            }
        }

        Assert.That(runs, Is.GreaterThan(300));
        Assert.That(ends, Is.GreaterThan(5));
    }

    // One after the other: up at once, down by a sixteenth, rounded half up; small numbers show how it rounds.
    [TestCase(25)]
    [TestCase(50)]
    public void PowerBits_OfFunctions_IsWhatALoopGives(int rateHz)
    {
        var random = new Random(5202);
        var reference = new MovementReference();
        Assert.That(reference.Start(rateHz, 16_384), Is.True);
        var means = new long[MovementReference.Axes];
        var seen = new HashSet<int>();
        for (int n = 0; n < 20_000; n++)
        {
            int size = n / 400 % 2 == 0 ? 0 : 1 << random.Next(14);
            reference.Next(random.Next(-size, size + 1), 500 + random.Next(-size, size + 1), random.Next(-1, 2));
            for (int axis = 0; axis < means.Length && reference.IsForLearning; axis++)
            {
                long power = 0;
                for (int i = 0; i < MovementReference.Functions; i++)
                {
                    long value = reference.Values[(axis * MovementReference.Functions) + i];
                    power += value * value;
                }

                means[axis] = Math.Max(power, means[axis] + ((power - means[axis] + 8) >> 4));
            }

            for (int axis = 0; axis < means.Length; axis++)
            {
                long expected = Math.Max(means[axis], means.Sum() >> 4);
                Assert.That(reference.PowerBits(axis), Is.EqualTo(64 - (int)long.LeadingZeroCount(expected)), $"sample {n}, axis {axis}");
                seen.Add(reference.PowerBits(axis));
            }
        }

        Assert.That(seen, Has.Count.GreaterThan(10));
    }

    private static int[] Axis(Random random, int count, int level, int size)
    {
        var axis = new int[count];
        for (int i = 0; i < count; i++)
        {
            axis[i] = random.Next(2000) == 0 ? random.Next(-65_536, 65_536) : level + random.Next(-size, size + 1);
        }

        return axis;
    }

    private static void AssertSame(in MovementReference actual, in MovementReference expected, int block)
    {
        Assert.That((actual.Steps, actual.IsStill), Is.EqualTo((expected.Steps, expected.IsStill)), $"block {block}");
        for (int i = 0; i < Word12.Length; i++)
        {
            Assert.That(actual.Values[i], Is.EqualTo(expected.Values[i]), $"block {block}, function {i}");
        }

        for (int axis = 0; axis < MovementReference.Axes; axis++)
        {
            Assert.That(actual.PowerBits(axis), Is.EqualTo(expected.PowerBits(axis)), $"block {block}, axis {axis}");
        }
    }
}
