// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Studies.Comparisons;

/// <summary>How two detectors differ in one figure, at one point or over all of them.</summary>
public sealed record PairedDifference
{
    /// <summary>The figure.</summary>
    public required ComparedFigure Figure { get; init; }

    /// <summary>Index of the point; null: pooled over all points.</summary>
    public required int? Point { get; init; }

    /// <summary>The first's figure, pooled [unit of the figure]; null when undefined.</summary>
    public required double? First { get; init; }

    /// <summary>The second's figure, pooled; null when undefined.</summary>
    public required double? Second { get; init; }

    /// <summary>Second less first, of magnitudes for figures with a sign.</summary>
    public required double? Difference { get; init; }

    /// <summary>Its 95 % interval by resampling whole seeds and persons, the same for both.</summary>
    public required Interval? Interval { get; init; }

    /// <summary>Probability of the swap test, two-sided [0 to 1]; null without a difference.</summary>
    public required double? SwapP { get; init; }

    /// <summary>What is shown of the second.</summary>
    public required DifferenceVerdict Verdict { get; init; }

    /// <summary>Runs of each.</summary>
    public required long RunCount { get; init; }

    /// <summary>Events or readings behind the first's figure.</summary>
    public required long FirstEventCount { get; init; }

    /// <summary>Events or readings behind the second's figure.</summary>
    public required long SecondEventCount { get; init; }

    /// <summary>Runs by which of the two meets the requirement; null when nothing is required.</summary>
    public required MetRuns? Met { get; init; }

    /// <summary>Whether the first's pooled figure meets the requirement; null when nothing is required.</summary>
    public bool? IsFirstMet => Figure.Limit is null ? null : Figure.OnRow.IsMetBy(First);

    /// <summary>Whether the second's pooled figure meets the requirement; null when nothing is required.</summary>
    public bool? IsSecondMet => Figure.Limit is null ? null : Figure.OnRow.IsMetBy(Second);
}

/// <summary>Runs by which of two detectors meets a requirement in them.</summary>
/// <param name="Both">Runs in which both do.</param>
/// <param name="OnlyFirst">Runs in which only the first does.</param>
/// <param name="OnlySecond">Runs in which only the second does.</param>
/// <param name="Neither">Runs in which neither does.</param>
/// <param name="AreIndependent">Whether each seed or each person gives one run only, so that McNemar's test holds.</param>
public sealed record MetRuns(long Both, long OnlyFirst, long OnlySecond, long Neither, bool AreIndependent)
{
    /// <summary>McNemar's exact two-sided probability; null where runs share seeds or persons.</summary>
    public double? ExactP => AreIndependent ? new PairedTest(OnlyFirst, OnlySecond).ExactP : null;
}

/// <summary>A run in which the two differ most.</summary>
/// <param name="Figure">The figure.</param>
/// <param name="Run">Number of the first's run in the comparison, see <see cref="ComparedSide.OwnRun"/>.</param>
/// <param name="Point">Index of the point.</param>
/// <param name="Seed">The seed.</param>
/// <param name="SubjectSeed">Seed of the person; null when nobody is drawn.</param>
/// <param name="First">The first's figure in the run.</param>
/// <param name="Second">The second's figure in the run.</param>
/// <param name="Difference">Second less first, of magnitudes for figures with a sign.</param>
public sealed record DifferingRun(ComparedFigure Figure, long Run, int Point, ulong Seed, ulong? SubjectSeed, double First, double Second, double Difference);
