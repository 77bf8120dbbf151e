// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>Mean and standard deviation of errors in several lists, of each of which only count, mean and standard deviation are known.</summary>
public sealed class PooledErrors
{
    private readonly List<(long Count, double Mean, double Sd)> _lists = [];

    /// <summary>Errors in all lists.</summary>
    public long Count => _lists.Sum(l => l.Count);

    /// <summary>Mean of all errors; null without any.</summary>
    public double? Mean => Count == 0 ? null : _lists.Sum(l => l.Count * l.Mean) / Count;

    /// <summary>Standard deviation of all errors, divisor n − 1; null with fewer than two.</summary>
    public double? Sd => Count < 2 ? null : Math.Sqrt(SumOfSquares(Mean!.Value) / (Count - 1));

    /// <summary>Root mean square of all errors; null without any.</summary>
    public double? Rms => Count == 0 ? null : Math.Sqrt(SumOfSquares(0) / Count);

    /// <summary>Adds a list; an empty one adds nothing.</summary>
    /// <param name="count">Errors in it.</param>
    /// <param name="mean">Their mean.</param>
    /// <param name="sd">Their standard deviation, divisor n − 1; null for a single error.</param>
    public void Add(long count, double? mean, double? sd)
    {
        if (count > 0 && mean is double m)
        {
            _lists.Add((count, m, sd ?? 0));
        }
    }

    // Of squares of the distance to a value: inside each list, and of its mean.
    private double SumOfSquares(double about) => _lists.Sum(l => ((l.Count - 1) * l.Sd * l.Sd) + (l.Count * (l.Mean - about) * (l.Mean - about)));
}
