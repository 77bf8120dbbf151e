// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;

namespace SensorSim.Testing;

/// <summary>A figure of a row of scores that a test may limit.</summary>
/// <param name="Name">What messages call it.</param>
/// <param name="Required">The figure as studies pool it; null for one of our own.</param>
/// <param name="Unit">Unit; empty for a share, <c>value</c> for that of the kind.</param>
internal sealed record Figure(string Name, RequiredFigure? Required, string Unit)
{
    public const string OfKind = "value";

    public static readonly Figure Sensitivity = new("sensitivity", RequiredFigure.Sensitivity, "");
    public static readonly Figure PositivePredictivity = new("positive predictivity", RequiredFigure.PositivePredictivity, "");
    public static readonly Figure TimingBias = new("timing bias", RequiredFigure.TimingBias, "ms");
    public static readonly Figure TimingSpread = new("timing spread (SD)", RequiredFigure.TimingSd, "ms");
    public static readonly Figure TimingP95 = new("95 % of timing errors", RequiredFigure.TimingP95, "ms");
    public static readonly Figure EventLatencyP95 = new("95 % of latencies", null, "ms");
    public static readonly Figure ReadingLatencyP95 = new("95 % of latencies", null, "ms");
    public static readonly Figure Bias = new("bias", RequiredFigure.ReadingBias, OfKind);
    public static readonly Figure Spread = new("spread (SD)", RequiredFigure.ReadingSd, OfKind);
    public static readonly Figure RmsError = new("RMS error", RequiredFigure.ReadingRms, OfKind);
    public static readonly Figure WrongShare = new("wrong share", RequiredFigure.ReadingWrongShare, "");
    public static readonly Figure AvailableShare = new("share of usable time with a reading", RequiredFigure.ReadingAvailableShare, "");
    public static readonly Figure First = new("first reading", RequiredFigure.ReadingFirst, "s");

    /// <summary>Whether it is a share, from 0 to 1.</summary>
    public bool IsShare => Unit.Length == 0;

    /// <summary>Whether larger is better.</summary>
    public bool IsLeast => Required is RequiredFigure figure && figure.IsLeast();
}

/// <summary>A limit of a figure.</summary>
/// <param name="Figure">The figure.</param>
/// <param name="Value">Its limit, in its unit.</param>
/// <param name="IsCertain">Whether the end of the 95 % interval must keep it.</param>
internal readonly record struct FigureLimit(Figure Figure, double Value, bool IsCertain);
