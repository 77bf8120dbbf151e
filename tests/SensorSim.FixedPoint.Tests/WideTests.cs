// SPDX-License-Identifier: MIT
using System.Numerics;
using CsCheck;

namespace SensorSim.FixedPoint.Tests;

[TestFixture]
public sealed class WideTests
{
    // The exact value by integers of any length: floor of (2 v + 2^bits) / 2^(bits + 1).
    [Test]
    public void Round_AnyValue_IsToNearestHalvesUpward() => Gen.Select(Gen.Long, Gen.Int[0, 62]).Sample((v, bits) =>
        Wide.Round(v, bits) == (long)((((BigInteger)v * 2) + (BigInteger.One << bits)) >> (bits + 1)));

    [TestCase(long.MaxValue, 1, 1L << 62)]
    [TestCase(long.MinValue, 62, -2)]
    [TestCase(-1, 1, 0)]
    [TestCase(-3, 1, -1)]
    [TestCase(3, 1, 2)]
    public void Round_Edges_NeverOverflows(long value, int bits, long expected) => Assert.That(Wide.Round(value, bits), Is.EqualTo(expected));

    [Test]
    public void Floor_AnyValue_IsTowardMinusInfinity() => Gen.Select(Gen.Long, Gen.Int[0, 63]).Sample((v, bits) =>
        (BigInteger)Wide.Floor(v, bits) == (BigInteger)v >> bits);

    [TestCase(5, 3, 40)]
    [TestCase(-5, -1, -3)]
    [TestCase(1, 99, 1L << 30)]
    [TestCase(long.MaxValue, -99, 1)]
    [TestCase(7, 0, 7)]
    public void Shifted_EitherWay_StopsAtItsLimits(long value, int bits, long expected) => Assert.That(Wide.Shifted(value, bits), Is.EqualTo(expected));

    [TestCase(1L << 40, 100, 100)]
    [TestCase(-(1L << 40), 100, -100)]
    [TestCase(-100, 100, -100)]
    [TestCase(99, 100, 99)]
    [TestCase(long.MinValue, int.MaxValue, -int.MaxValue)]
    public void Narrow_AnyValue_StopsAtTheLimit(long value, int limit, int expected) => Assert.That(Wide.Narrow(value, limit), Is.EqualTo(expected));

    [Test]
    public void Bits_AnyMagnitude_IsThatOfTheNextPower() => Gen.ULong.Sample(v =>
    {
        int bits = Wide.Bits(v);
        bool isAbove = bits == 64 || v >> bits == 0;
        return isAbove && (bits == 0 ? v == 0 : v >> (bits - 1) == 1) && (v > long.MaxValue || Wide.Bits((long)v) == bits);
    });

    [TestCase(0UL, 0)]
    [TestCase(1UL, 1)]
    [TestCase(ulong.MaxValue, 64)]
    public void Bits_Edges_AreCounted(ulong value, int expected) => Assert.That(Wide.Bits(value), Is.EqualTo(expected));

    [Test]
    public void Log2In256_AnyValue_IsOffByFourAtMost() => Gen.Select(Gen.Long[1, long.MaxValue], Gen.Int[0, 62]).Sample((v, down) =>
    {
        long value = Math.Max(1, v >> down);
        return Math.Abs(Wide.Log2In256(value) - (256 * Math.Log2(value))) <= 4;
    });

    [Test]
    public void Log2In256_PowersOfTwo_AreExact()
    {
        Assert.That(Wide.Log2In256(0), Is.Zero);
        Assert.That(Enumerable.Range(0, 63).Select(b => Wide.Log2In256(1L << b)), Is.EqualTo(Enumerable.Range(0, 63).Select(b => 256 * b)));
    }

    [Test]
    public void Divide_AnyNumbers_IsTheQuotientRounded() =>
        Gen.Select(Gen.ULong[0, long.MaxValue], Gen.UInt[1, int.MaxValue]).Sample((n, d) =>
            Wide.Divide(n, d) == (ulong)((((UInt128)n * 2) + d) / ((UInt128)d * 2)));

    [Test]
    public void Divide_ByNothing_CountsAsByOne() => Assert.That(Wide.Divide(77, 0), Is.EqualTo(77));

    [Test]
    public void Root_AnyValue_EnclosesIt() => Gen.ULong.Sample(v =>
    {
        UInt128 root = Wide.Root(v);
        return root * root <= v && (root + 1) * (root + 1) > v;
    });

    [Test]
    public void Root_HighestValue_IsTheHighestWord() => Assert.That(Wide.Root(ulong.MaxValue), Is.EqualTo(uint.MaxValue));
}
