// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests.Statistics;

/// <summary>McNemar's test against the binomial table and the chi-square table.</summary>
public class PairedTestTests
{
    // One tail of n = 12, x = 2 is 79 / 4096 = 0.0193 (the sign test's table prints 0.019, from memory).
    [TestCase(2, 10, 2 * 79.0 / 4096)]
    [TestCase(10, 2, 2 * 79.0 / 4096)]
    [TestCase(0, 5, 2.0 / 32)]
    [TestCase(3, 3, 1)]
    [TestCase(0, 0, 1)]
    public void ExactP_SmallCounts_IsTheBinomialTail(long first, long second, double expected) =>
        Assert.That(new PairedTest(first, second).ExactP, Is.EqualTo(expected).Within(1e-12));

    // Half of P(x = 2) on each side less: C(12, 2) / 4096.
    [Test]
    public void MidP_SmallCounts_TakesHalfOfWhatWasSeen()
    {
        Assert.That(new PairedTest(2, 10).MidP, Is.EqualTo((2 * 79.0 / 4096) - (66.0 / 4096)).Within(1e-12));
        Assert.That(new PairedTest(3, 3).MidP, Is.EqualTo(1).Within(1e-12));
    }

    // 86 and 150 changed their mind one way and the other, Agresti's poll (counts from memory): (64 − 1)² / 236; the 1 % point of chi-square is 6.635.
    [Test]
    public void CorrectedChiSquare_LargeCounts_FollowsTheFormulaAndTheTable()
    {
        Assert.That(new PairedTest(86, 150).CorrectedChiSquare, Is.EqualTo(3969.0 / 236).Within(1e-12));

        // (b, c) with (|b − c| − 1)² / (b + c) at table points 3.841 (5 %) and 6.635 (1 %).
        Assert.That(P(3.841), Is.EqualTo(0.05).Within(5e-5));
        Assert.That(P(6.635), Is.EqualTo(0.01).Within(5e-5));
        Assert.That(new PairedTest(4, 4).CorrectedChiSquare, Is.Zero, "never below 0");
        Assert.That(new PairedTest(0, 0).CorrectedP, Is.EqualTo(1));
    }

    // A split of large numbers whose corrected chi-square is as near to a value as whole numbers allow.
    private static double P(double chiSquare)
    {
        const long n = 100_000_000;
        long difference = (long)Math.Round(Math.Sqrt(chiSquare * n) + 1);
        return new PairedTest((n - difference) / 2, n - ((n - difference) / 2)).CorrectedP;
    }
}
