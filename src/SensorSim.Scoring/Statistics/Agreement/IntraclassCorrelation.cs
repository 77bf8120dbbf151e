// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics.Agreement;

/// <summary>Intraclass correlations of a table of targets by judges, the six forms of Shrout and Fleiss.</summary>
/// <remarks>Source: Shrout and Fleiss, Psychol Bull 86:420-428, 1979. Form (a, b): a the model, b judges averaged (1 or all k).</remarks>
public sealed record IntraclassCorrelation
{
    private IntraclassCorrelation()
    {
    }

    /// <summary>Targets (rows), at least 2.</summary>
    public required int TargetCount { get; init; }

    /// <summary>Judges (columns), at least 2.</summary>
    public required int JudgeCount { get; init; }

    /// <summary>Mean square between targets.</summary>
    public required double TargetMeanSquare { get; init; }

    /// <summary>Mean square within targets.</summary>
    public required double WithinMeanSquare { get; init; }

    /// <summary>Mean square between judges.</summary>
    public required double JudgeMeanSquare { get; init; }

    /// <summary>Mean square of what is left.</summary>
    public required double ErrorMeanSquare { get; init; }

    /// <summary>(1,1): each target has judges of its own; one judge.</summary>
    public double OneWaySingle => (TargetMeanSquare - WithinMeanSquare) / (TargetMeanSquare + ((JudgeCount - 1) * WithinMeanSquare));

    /// <summary>(2,1): the same judges, drawn from many; one judge; absolute agreement.</summary>
    public double TwoWayRandomSingle => (TargetMeanSquare - ErrorMeanSquare)
        / (TargetMeanSquare + ((JudgeCount - 1) * ErrorMeanSquare) + (JudgeCount * (JudgeMeanSquare - ErrorMeanSquare) / TargetCount));

    /// <summary>(3,1): these judges only; one judge; consistency.</summary>
    public double TwoWayFixedSingle => (TargetMeanSquare - ErrorMeanSquare) / (TargetMeanSquare + ((JudgeCount - 1) * ErrorMeanSquare));

    /// <summary>(1,k): as (1,1), the mean of all judges.</summary>
    public double OneWayAveraged => (TargetMeanSquare - WithinMeanSquare) / TargetMeanSquare;

    /// <summary>(2,k): as (2,1), the mean of all judges.</summary>
    public double TwoWayRandomAveraged => (TargetMeanSquare - ErrorMeanSquare)
        / (TargetMeanSquare + ((JudgeMeanSquare - ErrorMeanSquare) / TargetCount));

    /// <summary>(3,k): as (3,1), the mean of all judges.</summary>
    public double TwoWayFixedAveraged => (TargetMeanSquare - ErrorMeanSquare) / TargetMeanSquare;

    /// <summary>The correlations of a table.</summary>
    /// <param name="targets">For each target the values of all judges, in the same order.</param>
    /// <exception cref="ArgumentException">Fewer than two targets or judges, or rows of different length.</exception>
    public static IntraclassCorrelation Of(IReadOnlyList<IReadOnlyList<double>> targets)
    {
        ArgumentNullException.ThrowIfNull(targets);
        int n = targets.Count;
        int k = n == 0 ? 0 : targets[0].Count;
        if (n < 2 || k < 2 || targets.Any(t => t.Count != k))
        {
            throw new ArgumentException("At least two targets, each with the same judges, at least two.", nameof(targets));
        }

        double grand = targets.Average(t => t.Average());
        double total = targets.Sum(t => t.Sum(v => (v - grand) * (v - grand)));
        double between = k * targets.Sum(t => Square(t.Average() - grand));
        double judges = n * Enumerable.Range(0, k).Sum(j => Square(targets.Average(t => t[j]) - grand));
        return new IntraclassCorrelation
        {
            TargetCount = n,
            JudgeCount = k,
            TargetMeanSquare = between / (n - 1),
            WithinMeanSquare = (total - between) / (n * (k - 1.0)),
            JudgeMeanSquare = judges / (k - 1),
            ErrorMeanSquare = (total - between - judges) / ((n - 1.0) * (k - 1)),
        };
    }

    private static double Square(double value) => value * value;
}
