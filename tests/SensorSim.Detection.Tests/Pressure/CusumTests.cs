// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>The cumulative sum and its threshold against published run lengths (Montgomery's table for k = 0.5, from memory) and a Markov chain.</summary>
[TestFixture]
public sealed class CusumTests
{
    // Two-sided, k = 0.5: h, shift in standard deviations, average run length.
    private static readonly object[] s_table =
    [
        new object[] { 4.0, 0.0, 168.0 }, new object[] { 4.0, 1.0, 8.38 }, new object[] { 4.0, 2.0, 3.34 },
        new object[] { 5.0, 0.0, 465.0 }, new object[] { 5.0, 1.0, 10.4 }, new object[] { 5.0, 2.0, 4.01 },
    ];

    [TestCaseSource(nameof(s_table))]
    public void Chain_Published_Agrees(double h, double shift, double published) =>
        Assert.That(RunLengths.TwoSided(0.5, h, shift), Is.EqualTo(published).Within(1).Percent, "the table has three digits");

    [TestCaseSource(nameof(s_table))]
    public void Sum_OfNormalDraws_HasThePublishedRunLength(double h, double shift, double published)
    {
        var random = new Random(5001);
        var lengths = new double[shift == 0 ? 2_000 : 20_000];
        for (int run = 0; run < lengths.Length; run++)
        {
            lengths[run] = RunLength(random, (int)(h * 256), shift);
        }

        double mean = lengths.Average();
        double error = Math.Sqrt(lengths.Sum(x => (x - mean) * (x - mean))) / lengths.Length;
        TestContext.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{mean:F2} ± {error:F2}"));

        // Four standard errors, and what 1/256 of a deviation does to values and threshold (measured below 0.5 %).
        Assert.That(mean, Is.EqualTo(RunLengths.TwoSided(0.5, h, shift)).Within((4 * error) + (0.005 * published)));
    }

    [Test]
    public void Create_AnyInterval_SolvesSiegmundsFormula()
    {
        foreach (int allowance in new[] { 64, 128, 200, 512 })
        {
            foreach (int days in new[] { 20, 100, 365, 1000, 36_500 })
            {
                TrendSettings settings = TrendSettings.Create(days, allowance);
                Assert.That(
                    RunLengths.Siegmund(allowance / 256.0, settings.Threshold256 / 256.0), Is.EqualTo(days).Within(2).Percent, $"{days} days, k {allowance}/256");
            }
        }
    }

    // What the formula promises is what the chain says: the table's thresholds come out for the table's run lengths.
    [TestCase(168, 4.0)]
    [TestCase(465, 5.0)]
    public void Create_PublishedRunLength_GivesItsThreshold(int days, double h) =>
        Assert.That(TrendSettings.Create(days).Threshold256 / 256.0, Is.EqualTo(h).Within(0.02));

    [Test]
    public void Create_OutOfRange_IsClipped()
    {
        Assert.That(TrendSettings.Create(1), Is.EqualTo(TrendSettings.Create(20)));
        Assert.That(TrendSettings.Create(int.MaxValue, int.MaxValue), Is.EqualTo(TrendSettings.Create(36_500, 512)));
    }

    // Page's sum by hand: k = 0.5, values 1, −0.25, 2, −3; then from 0 on.
    [Test]
    public void Add_ByHand_GivesSumsCountsAndSize()
    {
        var sum = default(Cusum);
        var seen = new List<(int Sum, int Count, int Began, int Size)>();
        foreach ((int day, int value) in new[] { (3, 256), (4, -64), (6, 512), (7, -768), (8, 256) })
        {
            sum.Add(value, value * 5, 128, 5 * 256, day);
            seen.Add((sum.Sum256, sum.Count, sum.BeganDay, sum.Size256));
        }

        Assert.That(seen, Is.EqualTo(new[]
        {
            (128, 1, 3, 256 * 5), (0, 0, 0, 0), (384, 1, 6, 512 * 5), (0, 0, 0, 0), (128, 1, 8, 256 * 5),
        }));
    }

    [Test]
    public void Add_MovedBaseline_CountsFromWhereItWas()
    {
        var sum = default(Cusum);
        sum.Move(1000);
        sum.Add(512, 500, 128, 2048, 1);
        sum.Move(100);
        sum.Add(512, 400, 128, 2048, 2);
        Assert.That(sum.Size256, Is.EqualTo(500), "what moved before the run does not count; 400 above a baseline that moved by 100");
    }

    private static int RunLength(Random random, int threshold, double shift)
    {
        Cusum up = default;
        Cusum down = default;
        for (int n = 1; ; n++)
        {
            int value = (int)Math.Round((RunLengths.Draw(random) + shift) * 256);
            up.Add(value, 0, 128, int.MaxValue, n);
            down.Add(-value, 0, 128, int.MaxValue, n);
            if (up.Sum256 > threshold || down.Sum256 > threshold)
            {
                return n;
            }
        }
    }
}
