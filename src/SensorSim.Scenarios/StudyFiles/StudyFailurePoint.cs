// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.StudyFiles;

/// <summary>What <c>[failure_point]</c> says.</summary>
public sealed record StudyFailurePoint
{
    /// <summary>Share of runs that must meet the requirement [0 to 1]; null: the pooled figure is meant.</summary>
    public double? PassFraction { get; init; }

    /// <summary>Word of the curve.</summary>
    public string Curve { get; init; } = FailurePointKeys.Logistic;

    /// <summary>Resamples.</summary>
    public int Resamples { get; init; } = (int)FailurePointKeys.Resamples.Default;

    /// <summary>Whether runs are spent where they tell most.</summary>
    public bool IsAdaptive { get; init; }

    /// <summary>Adaptive: half width of the interval, in the unit of the key.</summary>
    public double Precision { get; init; }

    /// <summary>Adaptive: most runs; null: no limit but the study's own.</summary>
    public long? MostRuns { get; init; }
}
