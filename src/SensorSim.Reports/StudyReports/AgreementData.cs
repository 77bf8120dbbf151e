// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.StudyReports;

/// <summary>Readings of one kind against their true values, for a plot of agreement.</summary>
public sealed record AgreementData
{
    /// <summary>What was read and by which detector, for example <c>heart rate, ours</c>.</summary>
    public required string Title { get; init; }

    /// <summary>Of which runs, for example <c>36 of 60 runs</c>; stands apart, under the title of the plot.</summary>
    public string Runs { get; init; } = "";

    /// <summary>Unit of the readings; empty for a pure number.</summary>
    public required string Unit { get; init; }

    /// <summary>The pairs; those that are not finite are left out.</summary>
    public required IReadOnlyList<AgreementPair> Pairs { get; init; }

    /// <summary>The limits; null: those of independent pairs.</summary>
    public AgreementLimits? Limits { get; init; }
}
