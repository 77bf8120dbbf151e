// SPDX-License-Identifier: MIT
using CsCheck;
using MathNet.Numerics.Statistics;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests;

public class ErrorFiguresTests
{
    // Differences Wright 1 - Mini 1 of Bland & Altman, Lancet i:307-310, 1986: mean -2.117647, SD 38.765130 (recomputed from
    // the published values; the paper prints -2.1 and 38.8, from memory).
    private static readonly long[] s_peakFlow =
        [494 - 512, 395 - 430, 516 - 520, 434 - 428, 476 - 500, 557 - 600, 413 - 364, 442 - 380, 650 - 658, 433 - 445, 417 - 432,
         656 - 626, 267 - 260, 478 - 477, 178 - 259, 423 - 350, 427 - 451];

    [Test]
    public void Sums_PublishedDifferences_GivePublishedMeanAndSd()
    {
        var sums = new ErrorSums(1);
        Array.ForEach(s_peakFlow, sums.Add);
        Assert.That(sums.Mean, Is.EqualTo(-2.117647).Within(5e-7));
        Assert.That(sums.Sd, Is.EqualTo(38.765130).Within(5e-7));
    }

    [Test]
    public void Sums_AnyOrder_GiveTheSameBits() =>
        Gen.Long[-150_000_000, 150_000_000].Array[2, 200].Sample(
            errors =>
            {
                ErrorSums forward = SumsOf(errors);
                ErrorSums sorted = SumsOf([.. errors.Order()]);
                Assert.That((forward.Mean, forward.Sd, forward.Rms), Is.EqualTo((sorted.Mean, sorted.Sd, sorted.Rms)));
                double[] values = [.. errors.Select(e => e * 1e-6)];
                Assert.That(forward.Mean, Is.EqualTo(values.Mean()).Within(1e-9));
                Assert.That(forward.Sd, Is.EqualTo(values.StandardDeviation()).Within(1e-9));
                Assert.That(forward.Rms, Is.EqualTo(Math.Sqrt(values.Average(v => v * v))).Within(1e-9));
                return true;
            },
            iter: 500,
            threads: 2);

    [Test]
    public void Sums_LargeOffsetSmallSpread_KeepTheSpread()
    {
        // Sums of doubles would lose it: 1e16 against squares of 1 ns differences.
        var sums = new ErrorSums(1e-6);
        for (int i = 0; i < 1000; i++)
        {
            sums.Add(100_000_000 + (i % 2));
        }

        Assert.That(sums.Sd, Is.EqualTo(0.5e-6 * Math.Sqrt(1000.0 / 999)).Within(1e-15));
    }

    [Test]
    public void Sums_OneOrNoError_GiveNullNotNaN()
    {
        var sums = new ErrorSums(1);
        Assert.That((sums.Mean, sums.Sd, sums.Rms), Is.EqualTo(((double?)null, (double?)null, (double?)null)));
        sums.Add(3);
        Assert.That((sums.Mean, sums.Sd, sums.Rms), Is.EqualTo(((double?)3, (double?)null, (double?)3)));
    }

    [Test]
    public void AbsoluteQuantile_RandomErrors_IsTheRankedErrorWithinABin() =>
        Gen.Long[-150_000_000, 150_000_000].Array[1, 300].Sample(
            errors =>
            {
                var histogram = new ErrorHistogram(100_000, 150_000_000, 1e-6);
                Array.ForEach(errors, histogram.Add);
                long ranked = errors.Select(Math.Abs).Order().ElementAt(((95 * errors.Length) + 99) / 100 - 1);
                double quantile = histogram.AbsoluteQuantile(0.95)!.Value;
                Assert.That(quantile, Is.EqualTo(ranked / 1e6).Within(0.1));
                Assert.That(Math.Ceiling((quantile - 1e-9) * 10), Is.EqualTo(Math.Ceiling(ranked / 1e5)), "the same bin");
                return true;
            },
            iter: 1000,
            threads: 2);

    [Test]
    public void AbsoluteQuantile_OneToHundredMilliseconds_IsNinetyFive()
    {
        var histogram = new ErrorHistogram(100_000, 150_000_000, 1e-6);
        for (int ms = 1; ms <= 100; ms++)
        {
            histogram.Add((ms % 2 == 0 ? ms : -ms) * 1_000_000L);
        }

        // Alone in its bin, 94.9 to 95 ms: taken in the middle.
        Assert.That(histogram.AbsoluteQuantile(0.95), Is.EqualTo(94.95).Within(1e-9));
    }

    [Test]
    public void AbsoluteQuantile_BeyondTheBins_IsTheLargestError()
    {
        var histogram = new ErrorHistogram(10, 100, 1);
        histogram.Add(-7777);
        Assert.That((histogram.AbsoluteQuantile(0.95), histogram.BeyondCount), Is.EqualTo(((double?)7777, 1L)));
    }

    [Test]
    public void AbsoluteQuantile_AllZeroOrEmpty_IsZeroOrNull()
    {
        var histogram = new ErrorHistogram(10, 100, 1);
        Assert.That(histogram.AbsoluteQuantile(0.95), Is.Null);
        histogram.Add(0);
        Assert.That(histogram.AbsoluteQuantile(0.95), Is.Zero);
    }

    [Test]
    public void CountIn_ErrorsAtEdges_AreMirrored()
    {
        var histogram = new ErrorHistogram(10, 100, 1);
        foreach (long e in new long[] { 0, 1, 10, -1, -10, 11, -11 })
        {
            histogram.Add(e);
        }

        Assert.That((histogram.CountIn(0), histogram.CountIn(-1), histogram.CountIn(1), histogram.CountIn(-2)), Is.EqualTo((3L, 2L, 1L, 1L)));
        Assert.That((histogram.Centre(0), histogram.Centre(-1)), Is.EqualTo((5.0, -5.0)));
    }

    // Widths of which the inverse is rounded up, down, or not at all.
    [TestCase(1)]
    [TestCase(8)]
    [TestCase(10)]
    [TestCase(49)]
    [TestCase(100_000)]
    [TestCase(10_000_000)]
    public void CountIn_BothEdgesOfEveryBin_LieInIt(long width)
    {
        const int Bins = 2000;
        var histogram = new ErrorHistogram(width, Bins * width, 1);
        for (long bin = 0; bin < Bins; bin++)
        {
            histogram.Add((bin * width) + 1);
            histogram.Add((bin + 1) * width);
            histogram.Add(-(bin * width) - 1);
        }

        Assert.That(Enumerable.Range(0, Bins).All(bin => histogram.CountIn(bin) == 2 && histogram.CountIn(-1 - bin) == 1));
        Assert.That(histogram.BeyondCount, Is.Zero);
    }

    [Test]
    public void Squares_AroundWhatFits63Bits_AreExact()
    {
        var sums = new ErrorSums(1);
        long[] errors = [3_000_000_000, -3_000_000_000, 3_000_000_001, -3_000_000_001, 3_037_000_500, 10_000_000_000];
        Array.ForEach(errors, sums.Add);
        Int128 expected = 0;
        foreach (long error in errors)
        {
            expected += (Int128)error * error;
        }

        Assert.That(sums.Squares, Is.EqualTo(expected));
    }

    private static ErrorSums SumsOf(long[] errors)
    {
        var sums = new ErrorSums(1e-6);
        Array.ForEach(errors, sums.Add);
        return sums;
    }
}
