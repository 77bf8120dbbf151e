// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>One signal over time with its true and its detected events.</summary>
/// <remarks>
/// Times ascend; a step longer than one and a half times its neighbourhood's, or values that are not finite, are a gap:
/// the line breaks and the gap is shaded.
/// </remarks>
public sealed record SignalPanel
{
    /// <summary>What is shown, without the unit.</summary>
    public required string Title { get; init; }

    /// <summary>Unit of <see cref="Values"/>, printed after the title; empty for a number without unit.</summary>
    public required string Unit { get; init; }

    /// <summary>Sample times [s], finite and ascending.</summary>
    public required double[] TimesS { get; init; }

    /// <summary>Samples in <see cref="Unit"/>, as many as times; NaN where there is none.</summary>
    public required double[] Values { get; init; }

    /// <summary>True events: hollow circles, or thin vertical lines where they have no value.</summary>
    public IReadOnlyList<PlotMark> TruthMarks { get; init; } = [];

    /// <summary>Detected events: filled diamonds, or filled triangles on the lower edge where they have no value.</summary>
    public IReadOnlyList<PlotMark> DetectedMarks { get; init; } = [];

    /// <summary>Legend text of the true events.</summary>
    public string TruthLegend { get; init; } = "true";

    /// <summary>Legend text of the detected events.</summary>
    public string DetectedLegend { get; init; } = "detected";
}
