// SPDX-License-Identifier: MIT
using SensorSim.Studies.Comparisons;

namespace SensorSim.Studies.Tests.Comparisons;

[TestFixture]
public sealed class SwapTestTests
{
    // Darwin's maize: crossed less self-fertilised, in eighths of an inch (Fisher, The Design of Experiments, 1935, section 17; from memory).
    private static readonly double[] s_darwin = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48];

    [Test]
    public void P_Darwin_IsFishersCount()
    {
        // Fisher, section 21: of 32768 ways 863 reach the observed sum of 314, 1726 either way: 5.267 per cent (from memory).
        double p = SwapTest.P(15, Sum(s_darwin), mostExactPairs: 15);
        Assert.That(p, Is.EqualTo(1726.0 / 32768));
    }

    [Test]
    public void P_Drawn_IsNearTheExactOne() =>
        Assert.That(SwapTest.P(15, Sum(s_darwin), mostExactPairs: 12, draws: 99_999), Is.EqualTo(1726.0 / 32768).Within(4 * Math.Sqrt(0.053 * 0.947 / 1e5)));

    // Only k pairs differ, all one way: 2 / 2^k by counting.
    [TestCase(4, 0.125)]
    [TestCase(6, 0.03125)]
    public void P_FewPairsDiffer_CountsThoseOnly(int differing, double expected) =>
        Assert.That(SwapTest.P(12, Sum([.. Enumerable.Range(0, 12).Select(i => i < differing ? 1.0 : 0)])), Is.EqualTo(expected));

    [Test]
    public void P_NoDifference_IsOne() => Assert.That(SwapTest.P(12, Sum(new double[12])), Is.EqualTo(1));

    private static Func<bool[], double> Sum(double[] differences) => isSwapped => differences.Select((d, i) => isSwapped[i] ? -d : d).Sum();
}
