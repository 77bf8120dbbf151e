// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>Readings of a detector against the truth over time.</summary>
public sealed record TrendPanel
{
    /// <summary>What is shown, without the unit.</summary>
    public required string Title { get; init; }

    /// <summary>Unit of the values, printed after the title.</summary>
    public required string Unit { get; init; }

    /// <summary>Times of the true values [s], finite and ascending.</summary>
    public required double[] TruthTimesS { get; init; }

    /// <summary>True values, as many as their times; NaN breaks the line.</summary>
    public required double[] TruthValues { get; init; }

    /// <summary>Times of the readings [s], finite and ascending.</summary>
    public required double[] ReadingTimesS { get; init; }

    /// <summary>Readings, as many as their times; NaN where there was none.</summary>
    public required double[] ReadingValues { get; init; }

    /// <summary>Legend text of the truth.</summary>
    public string TruthLegend { get; init; } = "true";

    /// <summary>Legend text of the readings.</summary>
    public string ReadingLegend { get; init; } = "reading";
}
