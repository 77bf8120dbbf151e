// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>
/// A Latin hypercube has what its definition asks for: n equal shares of each range, one point in each (McKay, Beckman, Conover 1979, from
/// memory).
/// </summary>
[TestFixture]
public sealed class LatinHypercubeTests
{
    private StudyFolder _folder = null!;

    [SetUp]
    public void SetUp() => _folder = new StudyFolder();

    [TearDown]
    public void TearDown() => _folder.Dispose();

    [TestCase(2)]
    [TestCase(7)]
    [TestCase(100)]
    [TestCase(1000)]
    public void Points_EachShare_HasOne(int count)
    {
        StudyPlan plan = Read(count, 1);

        Assert.That(plan.Points, Has.Count.EqualTo(count));
        double[] even = Column(plan, 0);
        double[] down = Column(plan, 1);
        double[] ratio = Column(plan, 2);
        int[] all = [.. Enumerable.Range(0, count)];
        Assert.That(even.Select(x => (int)Math.Floor((x - 60) / 30 * count)), Is.EquivalentTo(all));
        Assert.That(down.Select(x => (int)Math.Floor((24 - x) / 32 * count)), Is.EquivalentTo(all), "a range that falls");
        Assert.That(ratio.Select(x => (int)Math.Floor(Math.Log(x / 0.01) / Math.Log(1000) * count)), Is.EquivalentTo(all), "equal shares of the logarithm");
    }

    [Test]
    public void Points_WithinTheirShares_LieAtRandom()
    {
        const int Count = 1000;
        double[] within = [.. Column(Read(Count, 1), 0).Select(x => ((x - 60) / 30 * Count) % 1)];

        // Uniform on (0, 1): mean 1/2, standard deviation 1/sqrt(12); of 1000 the mean's is 0.0091, four of which are 0.037.
        Assert.That(within.Average(), Is.EqualTo(0.5).Within(0.037));
        Assert.That(within.Count(w => w < 0.25), Is.EqualTo(250).Within(4 * Math.Sqrt(1000 * 0.25 * 0.75)));
    }

    [Test]
    public void Points_TwoKeys_AreNotTied()
    {
        const int Count = 1000;
        StudyPlan plan = Read(Count, 3);
        double[] a = [.. Column(plan, 0).Select(x => (x - 75) / 30)];
        double[] b = [.. Column(plan, 1).Select(x => (x - 8) / 32)];

        // Each has the variance 1/12; the correlation of independent ones has a standard deviation of 1/sqrt(1000).
        double correlation = a.Zip(b, (x, y) => x * y).Average() * 12;
        Assert.That(correlation, Is.EqualTo(0).Within(4 / Math.Sqrt(Count)));
    }

    [Test]
    public void Points_WordsAndWholeNumbers_HaveEqualShares()
    {
        StudyPlan plan = Read(100, 1);

        // 100 points, 3 words: 33 or 34 each. Bits 10 to 12: three whole numbers.
        Assert.That(plan.Points.GroupBy(p => (string)p.Values[3]).Select(g => g.Count()), Is.EquivalentTo(new[] { 33, 33, 34 }));
        Assert.That(Column(plan, 4).GroupBy(x => x).Select(g => (g.Key, g.Count() is 33 or 34)), Is.EquivalentTo(new[] { (10.0, true), (11.0, true), (12.0, true) }));
        Assert.That(plan.Factors[1].Levels, Is.EqualTo(new object[] { 24.0, -8.0 }), "the two ends");
    }

    [Test]
    public void Points_SeedAndKeys_DecideAlone()
    {
        StudyPlan plan = Read(50, 1);
        StudyPlan again = Read(50, 1);
        StudyPlan other = Read(50, 2);
        StudyPlan fewer = _folder.Read("arrangement = \"latin_hypercube\"\npoint_count = 50\n[[vary]]\nkey = \"ecg_noise.muscle_snr_db\"\nfrom = 24\nto = -8\n");

        Assert.That(Column(again, 1), Is.EqualTo(Column(plan, 1)));
        Assert.That(Column(other, 1), Is.Not.EqualTo(Column(plan, 1)));
        Assert.That(Column(fewer, 0), Is.EqualTo(Column(plan, 1)), "keyed by the name of the key");
        Assert.That(Column(plan, 0).Select(x => (x - 60) / 30), Is.Not.EqualTo(Column(plan, 1).Select(x => (24 - x) / 32)), "keys have shares of their own");
    }

    private static double[] Column(StudyPlan plan, int factor) => [.. plan.Points.Select(p => (double)p.Values[factor])];

    private StudyPlan Read(int count, int seed) => _folder.Read(FormattableString.Invariant($"""
        arrangement = "latin_hypercube"
        point_count = {count}
        arrangement_seed = {seed}
        [[vary]]
        key = "heart.rate_bpm"
        from = 60
        to = 90
        [[vary]]
        key = "ecg_noise.muscle_snr_db"
        from = 24
        to = -8
        [[vary]]
        key = "detector.x"
        from = 0.01
        to = 10
        spacing = "ratio"
        [[vary]]
        key = "heart.rhythm"
        values = ["sinus", "atrial_fibrillation", "paced"]
        [[vary]]
        key = "ecg_amplifier.bits"
        from = 10
        to = 12
        """));
}
