// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;
using SensorSim.Signals.Randomness;

namespace SensorSim.Scoring.Statistics.Resampling;

/// <summary>Bootstrap of any statistic of clusters: a cluster (a record, a seed, a person) is drawn whole, with everything in it.</summary>
/// <remarks>
/// Source: Efron and Tibshirani, An Introduction to the Bootstrap, 1993. Percentile interval: quantiles of the replicates. BCa: quantiles at
/// Φ(z₀ + (z₀ + z) / (1 − a (z₀ + z))); z₀ from the share of replicates below the estimate (ties count half), a from leaving out one cluster at a
/// time. Quantile q of B replicates stands at place q (B + 1), between two by a straight line. With few clusters (below some 15) every
/// bootstrap interval is too narrow.
/// </remarks>
public sealed class Bootstrap
{
    private readonly double[] _sorted;
    private readonly int[] _all;
    private readonly Func<int[], double?> _statistic;
    private double? _acceleration;

    private Bootstrap(double estimate, double[] sorted, int undefined, int[] all, Func<int[], double?> statistic)
    {
        Estimate = estimate;
        _sorted = sorted;
        UndefinedCount = undefined;
        _all = all;
        _statistic = statistic;
    }

    /// <summary>The statistic of the clusters as they are.</summary>
    public double Estimate { get; }

    /// <summary>Resamples in which the statistic was undefined; left out.</summary>
    public int UndefinedCount { get; }

    /// <summary>The statistic of each resample, ascending.</summary>
    public IReadOnlyList<double> Replicates => _sorted;

    /// <summary>Standard deviation of the replicates, divisor B − 1.</summary>
    public double StandardError => Moments.Of(_sorted).Sd ?? 0;

    /// <summary>z₀: how far the estimate lies from the median of the replicates, in normal deviations; infinite when it lies beyond all.</summary>
    public double BiasCorrection
    {
        get
        {
            int below = FirstAtOrAbove(Estimate);
            int ties = 0;
            while (below + ties < _sorted.Length && _sorted[below + ties] == Estimate)
            {
                ties++;
            }

            return Normal.InvCDF(0, 1, (below + (ties / 2.0)) / _sorted.Length);
        }
    }

    /// <summary>a: how fast the spread changes with the statistic; 0 when leaving out a cluster changes nothing or leaves it undefined.</summary>
    public double Acceleration => _acceleration ??= AccelerationOf();

    /// <summary>Resamples clusters.</summary>
    /// <param name="clusterCount">Clusters, at least 2.</param>
    /// <param name="statistic">
    /// The statistic of the clusters with given indices, some of them several times; null or NaN where it is undefined. Must not keep the array.
    /// </param>
    /// <param name="options">Seed and resamples; null for the defaults.</param>
    /// <returns>The bootstrap; null when the statistic is undefined for the clusters as they are or for half of the resamples.</returns>
    public static Bootstrap? Of(int clusterCount, Func<int[], double?> statistic, BootstrapOptions? options = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(clusterCount, 2);
        ArgumentNullException.ThrowIfNull(statistic);
        options ??= new BootstrapOptions();
        options.Validate();
        int[] all = [.. Enumerable.Range(0, clusterCount)];
        if (statistic([.. all]) is not double estimate || double.IsNaN(estimate))
        {
            return null;
        }

        var random = new KeyedRandom(options.Seed, "scoring.bootstrap");
        var chosen = new int[clusterCount];
        var words = new uint[clusterCount];
        var replicates = new List<double>(options.Resamples);
        for (int b = 0; b < options.Resamples; b++)
        {
            random.FillWords(words, (long)b * clusterCount);
            for (int i = 0; i < clusterCount; i++)
            {
                chosen[i] = (int)(((ulong)words[i] * (uint)clusterCount) >> 32);
            }

            if (statistic(chosen) is double value && !double.IsNaN(value))
            {
                replicates.Add(value);
            }
        }

        replicates.Sort();
        int undefined = options.Resamples - replicates.Count;
        return undefined * 2 >= options.Resamples ? null : new Bootstrap(estimate, [.. replicates], undefined, all, statistic);
    }

    /// <summary>Resamples the difference of two statistics of the same clusters, for example two detectors on the same seeds.</summary>
    /// <param name="clusterCount">Clusters, at least 2.</param>
    /// <param name="first">Statistic of the first, as in <see cref="Of"/>.</param>
    /// <param name="second">Statistic of the second.</param>
    /// <param name="options">Seed and resamples; null for the defaults.</param>
    /// <returns>Bootstrap of first − second; null as in <see cref="Of"/>.</returns>
    public static Bootstrap? OfDifference(
        int clusterCount, Func<int[], double?> first, Func<int[], double?> second, BootstrapOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        return Of(clusterCount, chosen => first(chosen) - second(chosen), options);
    }

    /// <summary>Percentile interval.</summary>
    /// <param name="confidence">Confidence, above 0 and below 1.</param>
    public Interval Percentile(double confidence = 0.95)
    {
        double tail = TailOf(confidence);
        return new Interval(Quantile(tail), Quantile(1 - tail));
    }

    /// <summary>Bias-corrected and accelerated interval; where it is undefined (the estimate lies beyond all replicates) the percentile interval.</summary>
    /// <param name="confidence">Confidence, above 0 and below 1.</param>
    public Interval Bca(double confidence = 0.95)
    {
        double tail = TailOf(confidence);
        double z0 = BiasCorrection;
        return double.IsFinite(z0) ? new Interval(Quantile(Shifted(tail)), Quantile(Shifted(1 - tail))) : Percentile(confidence);

        double Shifted(double share)
        {
            double z = z0 + Normal.InvCDF(0, 1, share);
            return Normal.CDF(0, 1, z0 + (z / (1 - (Acceleration * z))));
        }
    }

    private static double TailOf(double confidence) => confidence is > 0 and < 1
        ? (1 - confidence) / 2
        : throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "The confidence must be above 0 and below 1.");

    private double Quantile(double share)
    {
        double place = Math.Clamp((share * (_sorted.Length + 1)) - 1, 0, _sorted.Length - 1);
        int below = Math.Min((int)place, _sorted.Length - 1);
        int above = Math.Min(below + 1, _sorted.Length - 1);
        return _sorted[below] + ((place - below) * (_sorted[above] - _sorted[below]));
    }

    private int FirstAtOrAbove(double value)
    {
        int low = 0;
        int high = _sorted.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = _sorted[middle] < value ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    private double AccelerationOf()
    {
        var values = new List<double>(_all.Length);
        foreach (int left in _all)
        {
            if (_statistic([.. _all.Where(i => i != left)]) is not double value || double.IsNaN(value))
            {
                return 0;
            }

            values.Add(value);
        }

        double mean = values.Average();
        double squares = values.Sum(v => (mean - v) * (mean - v));
        return squares == 0 ? 0 : values.Sum(v => Math.Pow(mean - v, 3)) / (6 * Math.Pow(squares, 1.5));
    }
}
