// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint.Tests;

[TestFixture]
public sealed class Q15Tests
{
    // Q15 of 0.1 is 0x0CCD = 3277, of -0.1 0xF333 = -3277, of 0.5 0x4000. Expected words: the definition
    // sat16((a*b + 0x4000) >> 15) and sat16((a*b) >> 15), common practice of fixed-point arithmetic, worked by hand.
    [TestCase(-32768, -32768, 32767, 32767)]
    [TestCase(3277, 3277, 328, 327)]
    [TestCase(-3277, 3277, -328, -328)]
    [TestCase(1, 0x4000, 1, 0)]
    [TestCase(1, -0x4000, 0, -1)]
    [TestCase(-32768, 32767, -32767, -32767)]
    public void Multiply_KnownWords_RoundsAndSaturates(int a, int b, int rounded, int floor)
    {
        Assert.That(Q15.Multiply((short)a, (short)b), Is.EqualTo(rounded));
        Assert.That(Q15.MultiplyFloor((short)a, (short)b), Is.EqualTo(floor));
    }
}
