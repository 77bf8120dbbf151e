// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>Number, mean and sum of squares about the mean of some values.</summary>
/// <param name="Count">Values.</param>
/// <param name="Mean">Their mean; 0 without any.</param>
/// <param name="SumOfSquares">Sum of the squares of their distances from the mean.</param>
public readonly record struct Moments(long Count, double Mean, double SumOfSquares)
{
    /// <summary>Variance, divisor n − 1; null with fewer than two values.</summary>
    public double? Variance => Count < 2 ? null : SumOfSquares / (Count - 1);

    /// <summary>Standard deviation, divisor n − 1; null with fewer than two values.</summary>
    public double? Sd => Variance is double v ? Math.Sqrt(v) : null;

    /// <summary>Moments of values, in two passes.</summary>
    /// <param name="values">The values.</param>
    public static Moments Of(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count == 0)
        {
            return default;
        }

        double mean = values.Sum() / values.Count;
        return new Moments(values.Count, mean, values.Sum(v => (v - mean) * (v - mean)));
    }
}
