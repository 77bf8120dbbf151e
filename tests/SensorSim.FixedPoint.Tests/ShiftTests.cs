// SPDX-License-Identifier: MIT
using CsCheck;

namespace SensorSim.FixedPoint.Tests;

[TestFixture]
public sealed class ShiftTests
{
    // Halving of odd numbers: floor and half up, worked by hand from the definitions.
    [TestCase(-5, -3, -2)]
    [TestCase(-3, -2, -1)]
    [TestCase(-1, -1, 0)]
    [TestCase(1, 0, 1)]
    [TestCase(3, 1, 2)]
    [TestCase(5, 2, 3)]
    public void Halving_OddNumbers_RoundsAsNamed(int value, int floor, int halfUp)
    {
        Assert.That(Shift.Floor(value, 1), Is.EqualTo(floor));
        Assert.That(Shift.Round(value, 1), Is.EqualTo(halfUp));
    }

    [TestCase(int.MaxValue, 0, int.MaxValue)]
    [TestCase(int.MaxValue, 1, 1 << 30)]
    [TestCase(int.MinValue, 31, -1)]
    [TestCase(int.MaxValue, 31, 1)]
    public void Round_AtTheRails_DoesNotOverflow(int value, int bits, int expected) => Assert.That(Shift.Round(value, bits), Is.EqualTo(expected));

    [Test]
    public void Round_AnyWord_MatchesWideArithmetic() =>
        Gen.Select(Gen.Int, Gen.Int[1, 31]).Sample((v, b) => Shift.Round(v, b) == (int)((v + (1L << (b - 1))) >> b));

    [Test]
    public void RoundWithRoom_WordsWithRoomForTheHalf_IsRound() =>
        Gen.Select(Gen.Int[-(1 << 30), 1 << 30], Gen.Int[0, 30]).Sample((v, b) => Shift.RoundWithRoom(v, b) == Shift.Round(v, b));

    [Test]
    public void RoundWithRoom_WideNumbersWithRoomForTheHalf_IsRound() =>
        Gen.Select(Gen.Long[-(1L << 61), 1L << 61], Gen.Int[0, 61]).Sample((v, b) => Wide.RoundWithRoom(v, b) == Wide.Round(v, b));

    [TestCase(0, 8, 0)]
    [TestCase(255, 8, 0)]
    [TestCase(256, 8, 1)]
    [TestCase(int.MaxValue, 1, 30)]
    [TestCase(int.MaxValue, 31, 0)]
    public void Needed_BothSidesOfAPower_IsTheSmallestShift(int magnitude, int bits, int expected) =>
        Assert.That(Shift.Needed(magnitude, bits), Is.EqualTo(expected));
}
