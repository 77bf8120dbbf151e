// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>The exponential in lanes against mpmath 1.2.1 at 1400 bits (Reference/make_reference.py), and its bits.</summary>
public sealed class ExpLanesTests
{
    [Test]
    public void Exp_From700Below_RelativeErrorBelow4E16()
    {
        List<ReferenceValue> values = [.. ReferenceValues.Of("exp").Where(v => Math.Abs(v.X) <= 700)];
        Assert.That(values, Has.Count.GreaterThanOrEqualTo(300));

        // An ulp is between 1.1e-16 and 2.2e-16 of the value.
        double Error(ReferenceValue v) => v.ErrorUlp(One(v.X)) * (Math.BitIncrement(v.Nearest) - v.Nearest) / v.Nearest;
        ReferenceValue worst = values.MaxBy(Error);
        TestContext.Out.WriteLine($"worst relative error {Error(worst):E2}");
        Assert.That(Error(worst), Is.LessThan(4e-16), $"exp({worst.X:R})");
    }

    [Test]
    public void Exp_EachLane_IsThatOfItsOwnArgument()
    {
        var random = new KeyedRandom(3, "tests.exp_lanes");
        for (int i = 0; i < 1000; i++)
        {
            double[] x = [.. Enumerable.Range(4 * i, 4).Select(k => (20 * random.Uniform(k)) - 15)];
            Vector256<double> lanes = ExpLanes.Exp(Vector256.Create(x[0], x[1], x[2], x[3]));
            for (int lane = 0; lane < 4; lane++)
            {
                Assert.That(lanes[lane], Is.EqualTo(One(x[lane])));
                Assert.That(lanes[lane], Is.EqualTo(PortableMath.Exp(x[lane])).Within(1e-13).Percent);
            }
        }
    }

    // Pinned on x64 with AVX-512; the same with AVX2, SSE2 and no vector unit. A change of recipe does not go unnoticed.
    [Test]
    public void Exp_HundredThousandInputs_GivesThePinnedBits()
    {
        var random = new KeyedRandom(2, "tests.exp_lanes");
        var hash = new BitsHash();
        for (int i = 0; i < 100_000; i++)
        {
            hash.Add(One((1400 * random.Uniform(i)) - 700));
        }

        Assert.That(hash.ToString(), Is.EqualTo("91e73d9d1eac753f"));
    }

    private static double One(double x) => ExpLanes.Exp(Vector256.Create(x))[2];
}
