// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Links.Pacing;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Pacing;

/// <summary>Percentiles from counts, against sorting.</summary>
public sealed class TimeHistogramTests
{
    [Test]
    public void Percentiles_OfAnyTimes_AreThoseOfSortingWithinOneThirtySecond()
        => Gen.Select(Gen.OneOf(Gen.Long[0, 100], Gen.Long[0, 1_000_000], Gen.Long[0, 1L << 39]).Array[1, 300], Gen.Int[0, 100]).Sample((times, percent) =>
        {
            var histogram = new TimeHistogram();
            foreach (long us in times)
            {
                histogram.Add(us);
            }

            long[] sorted = [.. times.Order()];
            long exact = sorted[Math.Max(1, (int)Math.Ceiling(times.Length * (percent / 100.0))) - 1];
            long found = histogram.PercentileUs(percent);
            return found >= exact && found <= exact + (exact / 32) && found <= histogram.MaximumUs
                && histogram.MaximumUs == sorted[^1] && histogram.Count == times.Length;
        });

    [Test]
    public void Times_OutsideTheClasses_CountAtTheirEnds()
    {
        var histogram = new TimeHistogram();
        histogram.Add(-5);
        histogram.Add(long.MaxValue);
        Assert.That((histogram.PercentileUs(50), histogram.MaximumUs, histogram.Count), Is.EqualTo((0, long.MaxValue, 2)));
        Assert.That(histogram.PercentileUs(100), Is.EqualTo((1L << 40) - 1));
        histogram.Clear();
        Assert.That((histogram.PercentileUs(50), histogram.MaximumUs, histogram.Count), Is.EqualTo((0, 0, 0)));
    }

    [TestCase(-0.1)]
    [TestCase(100.1)]
    [TestCase(double.NaN)]
    public void Share_OutOfRange_IsRefused(double percent)
        => Assert.That(() => new TimeHistogram().PercentileUs(percent), Throws.InstanceOf<ArgumentOutOfRangeException>());

    [Test]
    public void Add_Always_AllocatesNothing()
    {
        var histogram = new TimeHistogram();
        Assert.That(Allocations.Least(() =>
        {
            for (int i = 0; i < 1000; i++)
            {
                histogram.Add(i * 37);
            }
        }), Is.Zero);
    }
}
