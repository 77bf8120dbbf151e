// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>Sums over pairs of a true value and an estimate, in whole millionths: exact, whatever the order in which pairs come.</summary>
/// <remarks>Magnitudes up to 10⁴ of the unit and 10⁸ pairs stay far below the 128 bits of the sums.</remarks>
public sealed class PairSums
{
    private const double Micro = 1e-6;
    private const double LargestValue = 1e7;
    private Int128 _truth;
    private Int128 _estimate;
    private Int128 _truthSquares;
    private Int128 _estimateSquares;
    private Int128 _products;
    private Int128 _absolute;

    /// <summary>Pairs added.</summary>
    public long Count { get; private set; }

    /// <summary>Mean of the true values; null without a pair.</summary>
    public double? TruthMean => Count == 0 ? null : (double)_truth / Count * Micro;

    /// <summary>Mean of the estimates; null without a pair.</summary>
    public double? EstimateMean => Count == 0 ? null : (double)_estimate / Count * Micro;

    /// <summary>Mean of estimate − truth; null without a pair.</summary>
    public double? Bias => Count == 0 ? null : (double)(_estimate - _truth) / Count * Micro;

    /// <summary>Standard deviation of estimate − truth, divisor n − 1; null with fewer than two pairs.</summary>
    public double? Sd => Count < 2 ? null : Math.Sqrt(Central(Errors(), _estimate - _truth) / (Count - 1));

    /// <summary>Root mean square of estimate − truth; null without a pair.</summary>
    public double? Rms => Count == 0 ? null : Math.Sqrt((double)Errors() / Count) * Micro;

    /// <summary>Mean of |estimate − truth|; null without a pair.</summary>
    public double? MeanAbsolute => Count == 0 ? null : (double)_absolute / Count * Micro;

    /// <summary>Variance of the true values, divisor n − 1; null with fewer than two pairs.</summary>
    public double? TruthVariance => Count < 2 ? null : Central(_truthSquares, _truth) / (Count - 1);

    /// <summary>Variance of the estimates, divisor n − 1; null with fewer than two pairs.</summary>
    public double? EstimateVariance => Count < 2 ? null : Central(_estimateSquares, _estimate) / (Count - 1);

    /// <summary>Moments of the differences estimate − truth.</summary>
    public Moments Differences => new(Count, Bias ?? 0, Count == 0 ? 0 : Central(Errors(), _estimate - _truth));

    /// <summary>Correlation by Pearson; null when a side does not vary.</summary>
    public double? Pearson
    {
        get
        {
            double scale = Count < 2 ? 0 : Math.Sqrt(Central(_truthSquares, _truth)) * Math.Sqrt(Central(_estimateSquares, _estimate));
            return scale > 0 ? Math.Clamp(Products() / scale, -1, 1) : null;
        }
    }

    /// <summary>Slope of the least-squares line of the estimate on the true value; null when the true value does not vary.</summary>
    public double? Slope => Count < 2 || Central(_truthSquares, _truth) is not > 0 ? null : Products() / Central(_truthSquares, _truth);

    /// <summary>Standard deviation of the estimates about that line, divisor n − 2; null with fewer than three pairs, or without a line.</summary>
    public double? ResidualSd => Count < 3 || Slope is not double slope
        ? null
        : Math.Sqrt(Math.Max(0, Central(_estimateSquares, _estimate) - (slope * Products())) / (Count - 2));

    /// <summary>Adds a pair.</summary>
    /// <param name="truth">True value, finite, magnitude at most 10⁷.</param>
    /// <param name="estimate">Estimate, finite, magnitude at most 10⁷.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite or too large.</exception>
    public void Add(double truth, double estimate)
    {
        Int128 t = Whole(truth, nameof(truth));
        Int128 e = Whole(estimate, nameof(estimate));
        Count++;
        _truth += t;
        _estimate += e;
        _truthSquares += t * t;
        _estimateSquares += e * e;
        _products += t * e;
        _absolute += Int128.Abs(e - t);
    }

    /// <summary>Adds the pairs of other sums.</summary>
    /// <param name="other">The sums; unchanged.</param>
    public void Add(PairSums other)
    {
        ArgumentNullException.ThrowIfNull(other);
        Count += other.Count;
        _truth += other._truth;
        _estimate += other._estimate;
        _truthSquares += other._truthSquares;
        _estimateSquares += other._estimateSquares;
        _products += other._products;
        _absolute += other._absolute;
    }

    /// <summary>Sum of the squares of the distances of the true values from a value.</summary>
    /// <param name="value">The value.</param>
    public double TruthSquaresAbout(double value) => About(_truthSquares, _truth, _truth, value);

    /// <summary>Sum of the squares of the distances of the estimates from a value.</summary>
    /// <param name="value">The value.</param>
    public double EstimateSquaresAbout(double value) => About(_estimateSquares, _estimate, _estimate, value);

    /// <summary>Sum of the products of the distances of truth and estimate from a value.</summary>
    /// <param name="value">The value.</param>
    public double ProductsAbout(double value) => About(_products, _truth, _estimate, value);

    /// <summary>Sum of the squares of estimate − truth.</summary>
    public double ErrorSquares => (double)Errors() * Micro * Micro;

    private double About(Int128 products, Int128 first, Int128 second, double value)
    {
        Int128 v = Whole(value, nameof(value));
        return (double)(products - (v * (first + second)) + (v * v * Count)) * Micro * Micro;
    }

    // Sum of squares about the mean, from whole sums.
    private double Central(Int128 squares, Int128 sum) => (double)((squares * Count) - (sum * sum)) / Count * Micro * Micro;

    private double Products() => (double)((_products * Count) - (_truth * _estimate)) / Count * Micro * Micro;

    private Int128 Errors() => _estimateSquares - (2 * _products) + _truthSquares;

    private static Int128 Whole(double value, string name) => double.IsFinite(value) && Math.Abs(value) <= LargestValue
        ? (Int128)(long)Math.Round(value / Micro)
        : throw new ArgumentOutOfRangeException(name, value, "Values are finite and at most 10,000,000 in magnitude.");
}
