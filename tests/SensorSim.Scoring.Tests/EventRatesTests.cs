// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests;

/// <summary>Check values: tables of exact Poisson limits after Garwood, Biometrika 28:437-442, 1936 (from memory).</summary>
public class EventRatesTests
{
    [TestCase(0, 0.0, 3.689)]
    [TestCase(1, 0.0253, 5.572)]
    [TestCase(5, 1.623, 11.668)]
    [TestCase(10, 4.795, 18.390)]
    [TestCase(50, 37.11, 65.92)]
    [TestCase(100, 81.36, 121.63)]
    public void Interval95_TabledCount_GivesTabledLimits(long count, double low, double high)
    {
        Interval interval = EventRates.Interval95(count);
        Assert.That(interval.Low, Is.EqualTo(low).Within(Math.Max(0.0005, low * 1e-4)));
        Assert.That(interval.High, Is.EqualTo(high).Within(high * 1e-4));
    }

    // Without an event exp(-m) = 0.05, m = 2.9957 ("rule of three"); others from the same tables.
    [TestCase(0, 2.9957)]
    [TestCase(1, 4.7439)]
    [TestCase(2, 6.2958)]
    [TestCase(5, 10.513)]
    [TestCase(10, 16.962)]
    public void UpperLimit95_TabledCount_GivesTabledLimit(long count, double limit) =>
        Assert.That(EventRates.UpperLimit95(count), Is.EqualTo(limit).Within(limit * 5e-5));

    // By the definition itself: as many or fewer events have a chance of 5 % at the limit.
    [TestCase(0)]
    [TestCase(3)]
    [TestCase(17)]
    public void UpperLimit95_AnyCount_IsWhereSoFewEventsAreRare(int count)
    {
        double mean = EventRates.UpperLimit95(count);
        double term = Math.Exp(-mean);
        double sum = term;
        for (int k = 1; k <= count; k++)
        {
            term *= mean / k;
            sum += term;
        }

        Assert.That(sum, Is.EqualTo(0.05).Within(1e-8));
    }

    [Test]
    public void Limits_NegativeCount_Throw()
    {
        Assert.That(() => EventRates.Interval95(-1), Throws.InstanceOf<ArgumentOutOfRangeException>());
        Assert.That(() => EventRates.UpperLimit95(-1), Throws.InstanceOf<ArgumentOutOfRangeException>());
    }

    [Test]
    public void PooledErrors_ThreeLists_GiveTheFiguresOfAllInOne()
    {
        double[][] lists = [[1, 2, 4, -3.5], [7], [10, 11, 9.5, 8, 30]];
        var pooled = new PooledErrors();
        foreach (double[] list in lists)
        {
            double mean = list.Average();
            pooled.Add(list.Length, mean, list.Length < 2 ? null : Math.Sqrt(list.Sum(x => (x - mean) * (x - mean)) / (list.Length - 1)));
        }

        pooled.Add(0, null, null);
        double[] all = [.. lists.SelectMany(l => l)];
        Assert.That(pooled.Count, Is.EqualTo(10));
        Assert.That(pooled.Mean, Is.EqualTo(all.Average()).Within(1e-12));
        Assert.That(pooled.Sd, Is.EqualTo(Math.Sqrt(all.Sum(x => (x - all.Average()) * (x - all.Average())) / 9)).Within(1e-12));
        Assert.That(pooled.Rms, Is.EqualTo(Math.Sqrt(all.Sum(x => x * x) / 10)).Within(1e-12));
        var none = new PooledErrors();
        Assert.That((none.Mean, none.Sd, none.Rms), Is.EqualTo(((double?)null, (double?)null, (double?)null)));
    }
}
