// SPDX-License-Identifier: MIT
using CsCheck;

namespace SensorSim.FixedPoint.Tests;

[TestFixture]
public sealed class ArithmeticTests
{
    [TestCase(0u, 0u)]
    [TestCase(1u, 1u)]
    [TestCase(3u, 1u)]
    [TestCase(4u, 2u)]
    [TestCase(4294836224u, 65534u)] // 65535² − 1
    [TestCase(4294836225u, 65535u)] // 65535²
    [TestCase(uint.MaxValue, 65535u)]
    public void IntegerRoot_BothSidesOfASquare_IsTheFloor(uint value, uint expected)
    {
        Assert.That(IntegerRoot.Floor(value), Is.EqualTo(expected));
    }

    [Test]
    public void IntegerRoot_AnyValue_EnclosesIt() => Gen.UInt.Sample(v =>
    {
        ulong root = IntegerRoot.Floor(v);
        return root * root <= v && (root + 1) * (root + 1) > v;
    });

    [Test]
    public void LongDivision_AnyNumbers_MatchesWideArithmetic() =>
        Gen.Select(Gen.ULong[0, 1UL << 62], Gen.UInt[1, int.MaxValue]).Sample((n, d) =>
            LongDivision.Rounded(n, d) == (int)UInt128.Min((((UInt128)n * 2) + d) / ((UInt128)d * 2), int.MaxValue));

    [Test]
    public void LongDivision_NumbersOfEveryLength_MatchesWideArithmetic() =>
        Gen.Select(Gen.ULong[0, 1UL << 62], Gen.Int[0, 62], Gen.UInt[1, int.MaxValue], Gen.Int[0, 30]).Sample((wide, down, large, less) =>
        {
            ulong n = wide >> down;
            uint d = Math.Max(1, large >> less);
            return LongDivision.Rounded(n, d) == (int)UInt128.Min((((UInt128)n * 2) + d) / ((UInt128)d * 2), int.MaxValue);
        });

    // Around the clip: quotients of 2^31 − 1.5 to 2^31 + 1.
    [TestCase(0x7FFF_FFFEul, 1u, 0x7FFF_FFFE)]
    [TestCase(0x7FFF_FFFFul, 1u, int.MaxValue)]
    [TestCase(0x8000_0000ul, 1u, int.MaxValue)]
    [TestCase(0xFFFF_FFFFul, 1u, int.MaxValue)]
    [TestCase(0xFFFF_FFFCul, 2u, 0x7FFF_FFFE)]
    [TestCase(0xFFFF_FFFDul, 2u, int.MaxValue)]
    [TestCase(0ul, 7u, 0)]
    [TestCase(3ul, 7u, 0)]
    [TestCase(4ul, 7u, 1)]
    [TestCase(5ul, 2u, 3)]
    [TestCase(4ul, 3u, 1)]
    [TestCase(1ul, 0u, int.MaxValue)]
    [TestCase(ulong.MaxValue >> 1, 1u, int.MaxValue)]
    public void LongDivision_Edges_RoundsAndClips(ulong numerator, uint denominator, int expected) =>
        Assert.That(LongDivision.Rounded(numerator, denominator), Is.EqualTo(expected));

    // y = 100 − (x − v)² through x = −1, 0, 1 has its vertex at v by construction; scaled so that integers hold it.
    [TestCase(0.25)]
    [TestCase(-0.4)]
    [TestCase(0.5)]
    [TestCase(0.0)]
    public void Parabola_ThroughASquare_FindsItsVertex(double vertex)
    {
        foreach (double scale in new[] { 1e3, 1e6, 2e8, -1e6, -2e8 })
        {
            int At(int x) => (int)Math.Round(scale * (4 - ((x - vertex) * (x - vertex))));
            Assert.That(Parabola.Vertex256(At(-1), At(0), At(1)), Is.EqualTo(vertex * 256).Within(0.51), $"scale {scale}");
        }
    }

    [Test]
    public void Parabola_OnALine_IsTheMiddle() => Assert.That(Parabola.Vertex256(1, 2, 3), Is.Zero);

    [Test]
    public void Median_UpToEightNumbers_MatchesSorting() => Gen.Int[-(1 << 30), 1 << 30].Array[1, 8].Sample(values =>
    {
        int[] sorted = [.. values.Order()];
        int half = sorted.Length / 2;
        int expected = sorted.Length % 2 == 1 ? sorted[half] : (int)Math.Floor((sorted[half] + (double)sorted[half - 1]) / 2);
        return Median.OfUpTo8(values) == expected;
    });

    [Test]
    public void Median_EqualNumbers_MatchesSorting() => Gen.Int[-2, 2].Array[1, 8].Sample(values =>
    {
        int[] sorted = [.. values.Order()];
        int half = sorted.Length / 2;
        int expected = sorted.Length % 2 == 1 ? sorted[half] : (int)Math.Floor((sorted[half] + (double)sorted[half - 1]) / 2);
        return Median.OfUpTo8(values) == expected;
    });

    [Test]
    public void MovingSum_AnyInput_MatchesThePlainSum() => Gen.Select(Gen.Int.Array[1, 200], Gen.Int[1, 64], Gen.Int).Sample((input, length, first) =>
    {
        var sum = new MovingSum();
        sum.Restart(length, first);
        for (int i = 0; i < input.Length; i++)
        {
            int expected = 0;
            for (int k = 0; k < length; k++)
            {
                expected = unchecked(expected + (i - k >= 0 ? input[i - k] : first));
            }

            if (sum.Next(input[i]) != expected)
            {
                return false;
            }
        }

        return true;
    });
}
