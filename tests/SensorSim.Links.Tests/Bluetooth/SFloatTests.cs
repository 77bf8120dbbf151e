// SPDX-License-Identifier: MIT
using SensorSim.Links.Bluetooth;

namespace SensorSim.Links.Tests.Bluetooth;

/// <summary>Numbers of 16 bits by IEEE 11073-20601; the examples 2, 2.0, 2.00, 20 and ±1234 are those of the Bluetooth SIG's white paper on personal health devices.</summary>
public sealed class SFloatTests
{
    [TestCase(2000, 0, 0x0002)]
    [TestCase(2000, -1, 0xF014)]
    [TestCase(2000, -2, 0xE0C8)]
    [TestCase(20_000, 1, 0x1002)]
    [TestCase(1_234_000, 0, 0x04D2)]
    [TestCase(-1_234_000, 0, 0x0B2E)]
    [TestCase(97_000, 0, 0x0061)]
    [TestCase(96_500, -1, 0xF3C5)]
    [TestCase(98_000, -1, 0xF3D4)]
    [TestCase(93_300, -1, 0xF3A5)]
    [TestCase(16_000, -2, 0xE640)]
    [TestCase(36_400, -1, 0xF16C)]
    [TestCase(0, -3, 0xD000)]
    public void FromMilli_PublishedValues_AreTheirBits(int milli, int exponent, int raw)
    {
        SFloat number = SFloat.FromMilli(milli, exponent);
        Assert.That(number.Raw, Is.EqualTo(raw));
        Assert.That(number.TryMilli(out int back), Is.True);
        Assert.That(back, Is.EqualTo(milli));
        Assert.That(number.Value, Is.EqualTo(milli / 1000.0).Within(1e-12));
    }

    [TestCase(204_549, -1, "2045E-1")]
    [TestCase(204_550, -1, "205E0")]
    [TestCase(-204_550, -1, "-205E0")]
    [TestCase(1_450, 0, "1E0")]
    [TestCase(1_500, 0, "2E0")]
    [TestCase(-1_500, 0, "-2E0")]
    [TestCase(2_045_499, 0, "2045E0")]
    [TestCase(2_045_500, 0, "205E1")]
    [TestCase(int.MaxValue, -8, "215E4")]
    [TestCase(int.MinValue, -8, "-215E4")]
    [TestCase(1, -8, "1000E-6")]
    public void FromMilli_WhatDoesNotFit_GetsCoarser(int milli, int exponent, string expected)
        => Assert.That(KnownAnswers.Number(SFloat.FromMilli(milli, exponent)), Is.EqualTo(expected));

    [Test]
    public void FromMilli_AnyValue_IsNoSpecialOneAndWithinHalfAStep()
    {
        var random = new Random(3);
        for (int i = 0; i < 100_000; i++)
        {
            int milli = (int)(random.NextInt64(1L << random.Next(1, 32)) * (random.Next(2) == 0 ? 1 : -1));
            SFloat number = SFloat.FromMilli(milli, random.Next(-8, 8));
            Assert.That(number.IsSpecial, Is.False);
            Assert.That(Math.Abs(number.Mantissa), Is.LessThanOrEqualTo(2045));
            Assert.That(Math.Abs((milli / 1000.0) - number.Value), Is.LessThanOrEqualTo(0.5000001 * Math.Pow(10, number.Exponent)));
        }
    }

    [TestCase(0x07FF, double.NaN)]
    [TestCase(0x0800, double.NaN)]
    [TestCase(0x0801, double.NaN)]
    [TestCase(0x07FE, double.PositiveInfinity)]
    [TestCase(0x0802, double.NegativeInfinity)]
    [TestCase(0x77FD, 2045e7)]
    [TestCase(0x8001, 1e-8)]
    [TestCase(0x17FF, 20470.0)]
    public void Value_SpecialAndExtreme_AreThoseOfTheStandard(int raw, double value)
    {
        var number = new SFloat((ushort)raw);
        Assert.That(number.Value, Is.EqualTo(value));
        Assert.That(number.IsSpecial, Is.EqualTo(raw is >= 0x07FE and <= 0x0802));
        Assert.That(number.TryMilli(out _), Is.EqualTo(double.IsFinite(value) && value < 2e6));
    }
}
