// SPDX-License-Identifier: MIT
using CsCheck;

namespace SensorSim.FixedPoint.Tests;

[TestFixture]
public sealed class SatTests
{
    [TestCase(int.MaxValue, 1, int.MaxValue)]
    [TestCase(int.MinValue, -1, int.MinValue)]
    [TestCase(int.MinValue, int.MinValue, int.MinValue)]
    [TestCase(int.MaxValue, int.MinValue, -1)]
    [TestCase(5, -7, -2)]
    public void Add32_AtTheRails_Saturates(int a, int b, int expected) => Assert.That(Sat.Add32(a, b), Is.EqualTo(expected));

    [TestCase(int.MinValue, 1, int.MinValue)]
    [TestCase(int.MaxValue, -1, int.MaxValue)]
    [TestCase(0, int.MinValue, int.MaxValue)]
    [TestCase(-1, int.MinValue, int.MaxValue)]
    [TestCase(5, 7, -2)]
    public void Sub32_AtTheRails_Saturates(int a, int b, int expected) => Assert.That(Sat.Sub32(a, b), Is.EqualTo(expected));

    [Test]
    public void AddAndSub_AnyWords_MatchWideArithmetic() =>
        Gen.Select(Gen.Int, Gen.Int).Sample((a, b) =>
            Sat.Add32(a, b) == Math.Clamp((long)a + b, int.MinValue, int.MaxValue)
            && Sat.Sub32(a, b) == Math.Clamp((long)a - b, int.MinValue, int.MaxValue));

    [TestCase(int.MinValue, int.MaxValue)]
    [TestCase(-1, 1)]
    [TestCase(0, 0)]
    [TestCase(int.MaxValue, int.MaxValue)]
    public void Abs32_AtTheRails_Saturates(int value, int expected) => Assert.That(Sat.Abs32(value), Is.EqualTo(expected));

    // 30000 + 10000 and its mirror: the usual saturating example of 16-bit arithmetic (common practice).
    [TestCase(40000, 32767)]
    [TestCase(-40000, -32768)]
    [TestCase(32767, 32767)]
    [TestCase(32768, 32767)]
    [TestCase(-32768, -32768)]
    [TestCase(-32769, -32768)]
    public void Narrow16_BothSidesOfTheRails_Clips(int value, int expected) => Assert.That(Sat.Narrow16(value), Is.EqualTo(expected));

    [TestCase(11, 10, 10)]
    [TestCase(10, 10, 10)]
    [TestCase(-11, 10, -10)]
    [TestCase(int.MinValue, int.MaxValue, -int.MaxValue)]
    public void Narrow_BeyondTheLimit_Clips(int value, int limit, int expected) => Assert.That(Sat.Narrow(value, limit), Is.EqualTo(expected));
}
