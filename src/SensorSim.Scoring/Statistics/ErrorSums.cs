// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>Count, mean, standard deviation and root mean square of whole numbers, exact until the last division.</summary>
/// <remarks>
/// Errors are whole nanoseconds (or millionths of a unit), so their sums are kept as 128-bit integers: nothing is rounded, the
/// order of events does not matter, and a sum of squares over a simulated week (10⁶ errors of 10⁸) stays 10¹⁴ below the limit.
/// 64 bits would overflow after a thousand squares of 10⁸.
/// </remarks>
public sealed class ErrorSums
{
    private const long LargestShort = 3_000_000_000;
    private readonly double _unit;
    private Int128 _sum;
    private Int128 _squares;

    /// <summary>Creates empty sums.</summary>
    /// <param name="unit">What one whole number stands for in the unit of the results; above 0.</param>
    public ErrorSums(double unit) => _unit = unit;

    /// <summary>Errors added.</summary>
    public long Count { get; private set; }

    /// <summary>Their sum, in whole numbers.</summary>
    public Int128 Sum => _sum;

    /// <summary>Sum of their squares, in whole numbers.</summary>
    public Int128 Squares => _squares;

    /// <summary>Mean; null when empty.</summary>
    public double? Mean => Count == 0 ? null : (double)_sum / Count * _unit;

    /// <summary>Standard deviation with divisor n − 1; null with fewer than two errors.</summary>
    public double? Sd => Count < 2
        ? null
        : Math.Sqrt((double)((_squares * Count) - (_sum * _sum)) / ((double)Count * (Count - 1))) * _unit;

    /// <summary>Root of the mean square; null when empty.</summary>
    public double? Rms => Count == 0 ? null : Math.Sqrt((double)_squares / Count) * _unit;

    /// <summary>Adds an error.</summary>
    /// <param name="error">Whole number, magnitude at most 10¹⁰.</param>
    public void Add(long error)
    {
        Count++;
        _sum += error;

        // Nearly every square fits into 63 bits.
        _squares += error is >= -LargestShort and <= LargestShort ? error * error : (Int128)error * error;
    }

    /// <summary>Adds errors of which the sums are known; the result is as if each had been added.</summary>
    /// <param name="count">Errors, 0 or more.</param>
    /// <param name="sum">Their sum.</param>
    /// <param name="squares">Sum of their squares.</param>
    public void Add(long count, Int128 sum, Int128 squares)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        Count += count;
        _sum += sum;
        _squares += squares;
    }
}
