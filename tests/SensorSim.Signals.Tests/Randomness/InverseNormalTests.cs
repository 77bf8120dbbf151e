// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Tests.Numerics;

namespace SensorSim.Signals.Tests.Randomness;

public sealed class InverseNormalTests
{
    private const double LargestError = 5e-11;

    [Test]
    public void FromWord_ReferenceProbabilities_IsTheQuantile()
    {
        // True quantiles by mpmath 1.2.1 (Reference/make_reference.py).
        List<ReferenceValue> values = ReferenceValues.Of("normal");
        Assert.That(values, Has.Count.GreaterThan(200));
        foreach (ReferenceValue value in values)
        {
            uint word = (uint)(value.X * 4294967296.0);
            Assert.That(InverseNormal.FromWord(word), Is.EqualTo(value.Nearest).Within(LargestError), $"word {word}");
        }
    }

    [Test]
    public void FromWord_EverySegmentSampledDensely_StaysWithinTheBound()
    {
        // Against the quantile of MathNet.Numerics (an independent rational approximation, checked against mpmath below).
        double worst = 0;
        for (int e = 0; e < 32; e++)
        {
            for (uint segment = 0; segment < 64; segment++)
            {
                for (uint step = 0; step <= 48; step++)
                {
                    ulong fraction = Math.Min(step * (1ul << 25) / 48, (1ul << 25) - 1);
                    uint x = (uint)(((1ul << 31) | ((ulong)segment << 25) | fraction) >> (31 - e)) | 1;
                    uint word = x >> 1;
                    double error = Math.Abs(InverseNormal.FromWord(word) - Normal.InvCDF(0, 1, (word + 0.5) / 4294967296.0));
                    worst = Math.Max(worst, error);
                }
            }
        }

        TestContext.Out.WriteLine($"inverse normal: worst error {worst:E3}");
        Assert.That(worst, Is.LessThan(LargestError));
    }

    [Test]
    public void MathNetQuantile_ReferenceProbabilities_IsGoodEnoughToJudgeBy()
    {
        foreach (ReferenceValue value in ReferenceValues.Of("normal"))
        {
            Assert.That(Normal.InvCDF(0, 1, value.X), Is.EqualTo(value.Nearest).Within(1e-13));
        }
    }

    [Test]
    public void FromWord_Complement_IsExactlyOpposite()
    {
        var random = new KeyedRandom(3, "tests.complement");
        for (int i = 0; i < 100_000; i++)
        {
            uint word = i < 100 ? (uint)i : random.Word(i);
            Assert.That(InverseNormal.FromWord(~word), Is.EqualTo(-InverseNormal.FromWord(word)));
        }
    }

    [Test]
    public void FromWord_RisingWords_NeverFallsByMoreThanTwiceTheError()
    {
        double last = double.NegativeInfinity;
        for (ulong word = 0; word <= uint.MaxValue; word += word < 5000 ? 1ul : 65_537)
        {
            double value = InverseNormal.FromWord((uint)word);
            Assert.That(value, Is.GreaterThan(last - (2 * LargestError)));
            last = value;
        }
    }

    [Test]
    public void Table_Coefficients_HaveThePinnedHash()
    {
        var hash = new BitsHash();
        for (int i = 0; i < InverseNormal.Table.Length; i++)
        {
            hash.Add(InverseNormal.Table[i]);
        }

        Assert.That(InverseNormal.Table.Length, Is.EqualTo(32 * 64 * 4));
        Assert.That(hash.ToString(), Is.EqualTo("0d5259ba2085e118"));
    }

    [Test]
    public void Normal_MillionDraws_HasStandardMoments()
    {
        // Standard errors of sample moments of a normal population: Kendall and Stuart, The Advanced Theory of Statistics.
        const int Count = 1_000_000;
        var draws = new double[Count];
        new KeyedRandom(5, "tests.moments").AddNormals(draws, 0, 1);
        double mean = draws.Average();
        double m2 = draws.Average(x => (x - mean) * (x - mean));
        double m3 = draws.Average(x => (x - mean) * (x - mean) * (x - mean));
        double m4 = draws.Average(x => (x - mean) * (x - mean) * (x - mean) * (x - mean));
        double neighbours = Enumerable.Range(0, Count - 1).Average(i => draws[i] * draws[i + 1]);
        Assert.That(mean, Is.EqualTo(0).Within(4 * Math.Sqrt(1.0 / Count)));
        Assert.That(m2, Is.EqualTo(1).Within(4 * Math.Sqrt(2.0 / Count)));
        Assert.That(m3 / Math.Pow(m2, 1.5), Is.EqualTo(0).Within(4 * Math.Sqrt(6.0 / Count)));
        Assert.That(m4 / (m2 * m2), Is.EqualTo(3).Within(4 * Math.Sqrt(24.0 / Count)));
        Assert.That(neighbours, Is.EqualTo(0).Within(4 * Math.Sqrt(1.0 / Count)));
    }
}
