// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>How often errors of each size and sign occurred, in bins of equal width on either side of zero.</summary>
/// <remarks>
/// Bin k ≥ 0 holds errors above k and up to k + 1 widths (bin 0 also zero itself); bin −1 − k holds their mirror images. So
/// the two signs are treated alike, and errors that are whole multiples of the width read back exactly.
/// </remarks>
public sealed class ErrorHistogram
{
    private const int FirstBins = 32;
    private long[] _negative;
    private long[] _positive;
    private readonly long _width;
    private readonly double _perWidth;
    private readonly double _unit;
    private long _zero;
    private long _beyond;
    private long _largest;

    /// <summary>Creates an empty histogram.</summary>
    /// <param name="binWidth">Width of a bin in whole numbers, at least 1.</param>
    /// <param name="range">Largest magnitude that gets a bin, at least <paramref name="binWidth"/>; larger errors are counted together.</param>
    /// <param name="unit">What one whole number stands for in the unit of the results.</param>
    public ErrorHistogram(long binWidth, long range, double unit)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(binWidth, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(range, binWidth);
        int bins = checked((int)((range + binWidth - 1) / binWidth));
        BinsPerSide = bins;
        _negative = new long[Math.Min(bins, FirstBins)];
        _positive = new long[_negative.Length];
        _width = binWidth;
        _perWidth = 1.0 / binWidth;
        _unit = unit;
    }

    /// <summary>Width of a bin in the unit of the results.</summary>
    public double BinWidth => _width * _unit;

    /// <summary>Bins on each side: bins run from −<see cref="BinsPerSide"/> to <see cref="BinsPerSide"/> − 1.</summary>
    public int BinsPerSide { get; }

    /// <summary>Errors added.</summary>
    public long Count { get; private set; }

    /// <summary>Errors larger than every bin.</summary>
    public long BeyondCount => _beyond;

    /// <summary>Errors in a bin.</summary>
    /// <param name="bin">−<see cref="BinsPerSide"/> to <see cref="BinsPerSide"/> − 1.</param>
    public long CountIn(int bin)
    {
        long[] side = bin < 0 ? _negative : _positive;
        int at = bin < 0 ? -1 - bin : bin;
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(at, BinsPerSide, nameof(bin));
        return at < side.Length ? side[at] : 0;
    }

    /// <summary>Middle of a bin in the unit of the results.</summary>
    /// <param name="bin">−<see cref="BinsPerSide"/> to <see cref="BinsPerSide"/> − 1.</param>
    public double Centre(int bin) => (bin + 0.5) * _width * _unit;

    /// <summary>Adds an error.</summary>
    /// <param name="error">The error in whole numbers.</param>
    public void Add(long error)
    {
        long size = Math.Abs(error);
        Count++;
        _largest = Math.Max(_largest, size);
        if (size == 0)
        {
            _zero++;
            _positive[0]++;
            return;
        }

        long bin = BinOf(size - 1);
        if (bin >= BinsPerSide)
        {
            _beyond++;
            return;
        }

        ref long[] side = ref (error < 0 ? ref _negative : ref _positive);
        if (bin >= side.Length)
        {
            // Most rows of a short run need a few bins only; the first error beyond them takes the whole range of its side, once.
            Array.Resize(ref side, BinsPerSide);
        }

        side[bin]++;
    }

    /// <summary>Takes the room of the whole range now: adding allocates no more.</summary>
    /// <param name="isSigned">Whether errors below zero are to come too.</param>
    internal void Reserve(bool isSigned)
    {
        Array.Resize(ref _positive, BinsPerSide);
        if (isSigned)
        {
            Array.Resize(ref _negative, BinsPerSide);
        }
    }

    /// <summary>The magnitude that a share of the errors does not exceed.</summary>
    /// <param name="share">Share, above 0 and at most 1.</param>
    /// <returns>
    /// The error of rank ⌈share × count⌉, as if the errors of its bin lay evenly in it: off by less than a bin; the largest error when
    /// that one lies beyond the bins; null when empty.
    /// </returns>
    public double? AbsoluteQuantile(double share)
    {
        if (!(share > 0 && share <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "The share must be above 0 and at most 1.");
        }

        if (Count == 0)
        {
            return null;
        }

        // Whole per mille, so that 0.95 of 100 is rank 95 and not 96 by a rounding error of the product.
        long rank = (long)(((Int128)Math.Round(share * 1000) * Count + 999) / 1000);
        long seen = _zero;
        if (seen >= rank)
        {
            return 0;
        }

        seen = 0;
        int bins = Math.Max(_positive.Length, _negative.Length);
        for (int bin = 0; bin < bins; bin++)
        {
            long inBin = CountIn(bin) + CountIn(-1 - bin);
            seen += inBin;
            if (seen >= rank)
            {
                // Place k of n even places in a bin is (k − ½)/n of its width; never above the largest error of all.
                double place = (rank - (seen - inBin) - 0.5) / inBin;
                return Math.Min((bin + place) * _width, _largest) * _unit;
            }
        }

        return _largest * _unit;
    }

    // Whole widths in a size: a product where the processor's division takes many times as long. Both operands are exact, so it is off by one at most.
    private long BinOf(long size)
    {
        if (size >= 1L << 52)
        {
            return size / _width;
        }

        long bin = (long)(size * _perWidth);
        long rest = size - (bin * _width);
        return rest < 0 ? bin - 1 : rest >= _width ? bin + 1 : bin;
    }
}
