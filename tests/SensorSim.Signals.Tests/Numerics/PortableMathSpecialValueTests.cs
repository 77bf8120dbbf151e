// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>Zeros, infinities and NaN; source: IEEE 754-2019 section 9.2.1 (the rules, from memory).</summary>
public sealed class PortableMathSpecialValueTests
{
    private const double Inf = double.PositiveInfinity;

    private static readonly long s_nan = BitConverter.DoubleToInt64Bits(double.NaN);

    [TestCase(0.0, 1.0)]
    [TestCase(-0.0, 1.0)]
    [TestCase(Inf, Inf)]
    [TestCase(-Inf, 0.0)]
    [TestCase(709.782712893384, 1.7976931348622732e308)] // the largest argument that does not overflow; value by mpmath 1.2.1
    [TestCase(709.7827128933841, Inf)]
    [TestCase(-745.1332191019412, 0.0)]
    [TestCase(-745.1332191019411, 5e-324)]
    public void Exp_SpecialValues_AreExact(double x, double expected) => Assert.That(PortableMath.Exp(x), Is.EqualTo(expected));

    [TestCase(1.0, 0.0)]
    [TestCase(0.0, -Inf)]
    [TestCase(-0.0, -Inf)]
    [TestCase(Inf, Inf)]
    public void Log_SpecialValues_AreExact(double x, double expected) => Assert.That(PortableMath.Log(x), Is.EqualTo(expected));

    [TestCase(0.0, 0.0, 1.0)]
    [TestCase(double.NaN, 0.0, 1.0)]
    [TestCase(1.0, double.NaN, 1.0)]
    [TestCase(-1.0, Inf, 1.0)]
    [TestCase(-2.0, 3.0, -8.0)]
    [TestCase(-2.0, -2.0, 0.25)]
    [TestCase(0.0, 2.5, 0.0)]
    [TestCase(0.0, -2.5, Inf)]
    [TestCase(-0.0, -3.0, -Inf)]
    [TestCase(-0.0, -2.0, Inf)]
    [TestCase(0.5, Inf, 0.0)]
    [TestCase(0.5, -Inf, Inf)]
    [TestCase(2.0, Inf, Inf)]
    [TestCase(2.0, -Inf, 0.0)]
    [TestCase(Inf, -1.0, 0.0)]
    [TestCase(Inf, 0.5, Inf)]
    [TestCase(-Inf, 3.0, -Inf)]
    [TestCase(-Inf, 2.0, Inf)]
    [TestCase(-Inf, 0.5, Inf)]
    [TestCase(-1.0, 9007199254740993.0, 1.0)]
    [TestCase(-1.0, 9007199254740991.0, -1.0)]
    [TestCase(2.0, 1023.0, 8.98846567431158e307)]
    [TestCase(2.0, 1024.0, Inf)]
    [TestCase(2.0, -1074.0, 5e-324)]
    [TestCase(2.0, -1076.0, 0.0)]
    [TestCase(5e-324, 1.0, 5e-324)]
    [TestCase(1.0000000000000002, 1e300, Inf)]
    public void Pow_SpecialValues_AreExact(double x, double y, double expected) => Assert.That(PortableMath.Pow(x, y), Is.EqualTo(expected));

    [Test]
    public void Pow_NegativeZeroToAnOddPower_IsNegativeZero() => Assert.That(double.IsNegative(PortableMath.Pow(-0.0, 3)), Is.True);

    [TestCase(0.0, 1.0, 0.0)]
    [TestCase(0.0, -1.0, Math.PI)]
    [TestCase(0.0, -0.0, Math.PI)]
    [TestCase(1.0, 0.0, Math.PI / 2)]
    [TestCase(1.0, -0.0, Math.PI / 2)]
    [TestCase(1.0, Inf, 0.0)]
    [TestCase(1.0, -Inf, Math.PI)]
    [TestCase(Inf, 1.0, Math.PI / 2)]
    [TestCase(Inf, -1.0, Math.PI / 2)]
    [TestCase(Inf, Inf, Math.PI / 4)]
    [TestCase(Inf, -Inf, 3 * Math.PI / 4)]
    [TestCase(5e-324, 5e-324, Math.PI / 4)]
    [TestCase(5e-324, 2.0, 0.0)]
    [TestCase(double.MaxValue, 5e-324, Math.PI / 2)]
    public void Atan2_SpecialValues_AreExactWithTheSignOfY(double y, double x, double expected)
    {
        Assert.That(PortableMath.Atan2(y, x), Is.EqualTo(expected));
        Assert.That(BitConverter.DoubleToInt64Bits(PortableMath.Atan2(-y, x)), Is.EqualTo(BitConverter.DoubleToInt64Bits(-expected)));
    }

    [Test]
    public void Sin_Zeros_KeepTheirSign()
    {
        Assert.That(double.IsNegative(PortableMath.Sin(-0.0)), Is.True);
        Assert.That(double.IsNegative(PortableMath.Sin(0.0)), Is.False);
        Assert.That(PortableMath.Cos(-0.0), Is.EqualTo(1));
    }

    [TestCase(0.0, 0.0, 1.0)]
    [TestCase(0.25, 1.0, 0.0)]
    [TestCase(-0.25, -1.0, 0.0)]
    [TestCase(0.5, 0.0, -1.0)]
    [TestCase(0.75, -1.0, 0.0)]
    [TestCase(1e9 + 0.25, 1.0, 0.0)]
    [TestCase(562949953421312.25, 1.0, 0.0)] // 2^49 + 1/4: the first size that goes another way
    [TestCase(1125899906842624.75, -1.0, 0.0)] // 2^50 + 3/4
    [TestCase(9223372036854775808.0, 0.0, 1.0)]
    [TestCase(-double.MaxValue, 0.0, 1.0)]
    public void SinCosTurns_QuarterTurns_AreExact(double turns, double sine, double cosine)
    {
        PortableMath.SinCosTurns(turns, out double sin, out double cos);
        Assert.That((sin, cos), Is.EqualTo((sine, cosine)));
    }

    [Test]
    public void EveryFunction_WhereNothingIsDefined_GivesTheOneNaN()
    {
        var results = new List<double>
        {
            PortableMath.Exp(double.NaN), PortableMath.Log(double.NaN), PortableMath.Log(-1), PortableMath.Log(-Inf),
            PortableMath.Sin(double.NaN), PortableMath.Sin(Inf), PortableMath.Cos(-Inf), PortableMath.Cos(double.NaN),
            PortableMath.Pow(double.NaN, 1), PortableMath.Pow(2, double.NaN), PortableMath.Pow(-2, 0.5), PortableMath.Pow(-2, -1.5),
            PortableMath.Atan2(double.NaN, 1), PortableMath.Atan2(1, double.NaN),
        };
        foreach (double turns in new[] { double.NaN, Inf, -Inf })
        {
            PortableMath.SinCosTurns(turns, out double sin, out double cos);
            results.Add(sin);
            results.Add(cos);
        }

        Assert.That(results.Select(BitConverter.DoubleToInt64Bits), Has.All.EqualTo(s_nan));
    }
}
