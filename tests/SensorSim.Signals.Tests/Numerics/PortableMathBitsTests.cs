// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>The bits themselves: same on every machine, and a change of recipe does not go unnoticed.</summary>
/// <remarks>The pinned values are this project's own; that they are right is what the accuracy tests show.</remarks>
public sealed class PortableMathBitsTests
{
    private const int Count = 100_000;

    [TestCase("exp", "38860fb966c08b0a")]
    [TestCase("log", "7cd5c48171d5bdc1")]
    [TestCase("sin", "1f97366ef9a1fc95")]
    [TestCase("cos", "64ba163a18d10b1f")]
    [TestCase("turns", "7d6a60721bc676b2")]
    [TestCase("pow", "9e8b11073faead7b")]
    [TestCase("atan2", "78ad9f440ef851b6")]
    public void EveryFunction_HundredThousandInputs_GivesThePinnedBits(string function, string expected) =>
        Assert.That(Hash(function), Is.EqualTo(expected));

    [Test]
    public void SomeValues_AsDoubles_HaveThePinnedBits()
    {
        // Correctly rounded values, by mpmath 1.2.1: mp.exp(1), log(10), sin(1), cos(1), 2 ** 0.5, atan2(1, 2), sin(2 pi / 10).
        PortableMath.SinCosTurns(0.1, out double sin, out _);
        double[] values =
        [
            PortableMath.Exp(1), PortableMath.Log(10), PortableMath.Sin(1), PortableMath.Cos(1), PortableMath.Pow(2, 0.5), PortableMath.Atan2(1, 2), sin,
        ];
        Assert.That(values.Select(v => BitConverter.DoubleToUInt64Bits(v).ToString("x16", null)), Is.EqualTo(new[]
        {
            "4005bf0a8b145769", "40026bb1bbb55516", "3feaed548f090cee", "3fe14a280fb5068c", "3ff6a09e667f3bcd", "3fddac670561bb4f", "3fe2cf2304755a5e",
        }));
    }

    private static string Hash(string function)
    {
        var random = new KeyedRandom(2, "tests." + function);
        var hash = new BitsHash();
        for (int i = 0; i < Count; i++)
        {
            // Every eighth argument is of any size at all, the others are of the sizes that models use.
            double u = (random.Uniform(2 * i) * 2) - 1;
            double v = (random.Uniform((2 * i) + 1) * 2) - 1;
            double any = BitConverter.UInt64BitsToDouble(((ulong)random.Word(2 * i) << 32) | random.Word((2 * i) + 1));
            bool isAny = i % 8 == 0;
            double result = function switch
            {
                "exp" => PortableMath.Exp(isAny ? u * 750 : u * 20),
                "log" => PortableMath.Log(isAny ? any : 2 + (u * 1.99)),
                "sin" => PortableMath.Sin(isAny ? any : u * 1e4),
                "cos" => PortableMath.Cos(isAny ? any : u * 1e4),
                "turns" => Turns(isAny ? any : u * 1e4),
                "pow" => PortableMath.Pow(isAny ? any : 2 + (u * 1.99), v * 20),
                _ => PortableMath.Atan2(u, isAny ? any : v),
            };
            hash.Add(result);
        }

        return hash.ToString();
    }

    private static double Turns(double turns)
    {
        PortableMath.SinCosTurns(turns, out double sin, out double cos);
        return sin + (cos * 3);
    }
}
