// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests.Statistics;

/// <summary>Sums of pairs against figures computed from the pairs themselves.</summary>
public class PairSumsTests
{
    [Test]
    public void Figures_RandomPairs_AreThoseOfThePairs() =>
        Gen.Select(Gen.Double[50, 200], Gen.Double[50, 200]).Array[3, 60].Sample(
            drawn =>
            {
                (double T, double E)[] pairs = [.. drawn.Select(p => (Math.Round(p.Item1, 3), Math.Round(p.Item2, 3)))];
                var sums = new PairSums();
                var half = new PairSums();
                foreach ((double t, double e) in pairs)
                {
                    (sums.Count == half.Count ? sums : half).Add(t, e);
                }

                sums.Add(half);
                double n = pairs.Length;
                double[] d = [.. pairs.Select(p => p.E - p.T)];
                double mean = d.Average();
                double tm = pairs.Average(p => p.T);
                double em = pairs.Average(p => p.E);
                double sxx = pairs.Sum(p => (p.T - tm) * (p.T - tm));
                double sxy = pairs.Sum(p => (p.T - tm) * (p.E - em));
                double slope = sxy / sxx;
                Assert.That(sums.Count, Is.EqualTo(pairs.Length));
                Assert.That(sums.Bias, Is.EqualTo(mean).Within(1e-9));
                Assert.That(sums.Sd, Is.EqualTo(Math.Sqrt(d.Sum(v => (v - mean) * (v - mean)) / (n - 1))).Within(1e-9));
                Assert.That(sums.Rms, Is.EqualTo(Math.Sqrt(d.Average(v => v * v))).Within(1e-9));
                Assert.That(sums.MeanAbsolute, Is.EqualTo(d.Average(Math.Abs)).Within(1e-9));
                Assert.That(sums.Slope, Is.EqualTo(slope).Within(1e-9));
                Assert.That(sums.ResidualSd, Is.EqualTo(Math.Sqrt(pairs.Sum(p => Math.Pow(p.E - em - (slope * (p.T - tm)), 2)) / (n - 2))).Within(1e-6));
                Assert.That(sums.TruthSquaresAbout(120), Is.EqualTo(pairs.Sum(p => (p.T - 120) * (p.T - 120))).Within(1e-6));
                Assert.That(sums.ProductsAbout(120), Is.EqualTo(pairs.Sum(p => (p.T - 120) * (p.E - 120))).Within(1e-6));
                return true;
            },
            iter: 300,
            threads: 1);

    [Test]
    public void Add_NotFinite_Throws() =>
        Assert.That(() => new PairSums().Add(double.NaN, 1), Throws.InstanceOf<ArgumentOutOfRangeException>());
}
