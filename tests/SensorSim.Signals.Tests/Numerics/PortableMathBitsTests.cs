// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Security.Cryptography;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>The bits themselves: same on every machine, and a change of recipe does not go unnoticed.</summary>
/// <remarks>The pinned values are this project's own; that they are right is what the accuracy tests show.</remarks>
public sealed class PortableMathBitsTests
{
    private const int Count = 100_000;

    [TestCase("exp", "4fc6726ff866a9577a5b77ea394252fc7d36379cef57fb5774c7cdb8e3c271b2")]
    [TestCase("log", "4a75db7ccfee7de10b3d9555a4ebd23616ac7a57797d403f2566d34e1647cc88")]
    [TestCase("sin", "c5104c78c67d5bc97f7d8de1cc81359a8139bc60c77271ba8920f49c4fd2b6ce")]
    [TestCase("cos", "a07b715daa85478f6e198b2bb68bdf4b5dd6f583b72432da20dca4fb7d9805e6")]
    [TestCase("turns", "ff001a4f77fef107f1431ab27fea82a60c241988d4ac3ac8e5fe22f03638ac6f")]
    [TestCase("pow", "3cfed1660807db89acdace89b2b94cf8e1c2c8a13d3e8145a34f93c0eb5d7d1a")]
    [TestCase("atan2", "9aab93d66515aa2e43e12a1ea26c068d814a4ef5e9d0c780258dd08f6a17c113")]
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
        var bytes = new byte[Count * 8];
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
            BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(i * 8), result);
        }

        return Convert.ToHexStringLower(SHA256.HashData(bytes));
    }

    private static double Turns(double turns)
    {
        PortableMath.SinCosTurns(turns, out double sin, out double cos);
        return sin + (cos * 3);
    }
}
