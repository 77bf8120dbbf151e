// SPDX-License-Identifier: MIT
using CsCheck;

namespace SensorSim.FixedPoint.Tests;

/// <summary>Logarithms against those of the machine; the stated errors are of our own arithmetic.</summary>
[TestFixture]
public sealed class Log2Tests
{
    private const double Step = 1.0 / (1 << Log2.FractionBits);

    [TestCase(1u, 0)]
    [TestCase(2u, 1)]
    [TestCase(1024u, 10)]
    [TestCase(1u << 31, 31)]
    public void Q24_PowersOfTwo_AreExact(uint value, int expected) =>
        Assert.That(Log2.Q24(value), Is.EqualTo(expected << Log2.FractionBits));

    [Test]
    public void Q24_AnyValue_IsWithinItsStatedError() =>
        Gen.UInt.Where(static v => v > 0).Sample(v => Math.Abs((Log2.Q24(v) * Step) - Math.Log2(v)) <= 0.6 * Step, iter: 100_000);

    [Test]
    public void Q24_EveryArrivalTime_IsWithinItsStatedErrorAndNeverFalls()
    {
        int before = 0;
        double worst = 0;
        for (uint us = 1; us <= 600_000; us++)
        {
            int log = Log2.Q24(us);
            worst = Math.Max(worst, Math.Abs((log * Step) - Math.Log2(us)));
            Assert.That(log >= before, Is.True, $"{us}");
            before = log;
        }

        Assert.That(worst / Step, Is.LessThanOrEqualTo(0.6));
    }

    [Test]
    public void NaturalQ24_AnyValue_IsWithinAStep() =>
        Gen.UInt.Where(static v => v > 0).Sample(v => Math.Abs((Log2.NaturalQ24(v) * Step) - Math.Log(v)) <= Step, iter: 100_000);

    [Test]
    public void Zero_HasNoLogarithm_AndGivesZero()
    {
        Assert.That(Log2.Q24(0), Is.Zero);
        Assert.That(Log2.NaturalQ24(0), Is.Zero);
        Assert.That(Log2.Q24(uint.MaxValue), Is.EqualTo(32 << Log2.FractionBits));
    }
}
