// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>How a curve is drawn: two hues that stay apart for everybody, each as a line or in dashes.</summary>
public enum CurveStyle
{
    /// <summary>Blue line.</summary>
    First,

    /// <summary>Blue dashes.</summary>
    FirstDashed,

    /// <summary>Vermilion line.</summary>
    Second,

    /// <summary>Vermilion dashes.</summary>
    SecondDashed,
}

/// <summary>One curve of a panel.</summary>
/// <param name="Style">How it is drawn.</param>
/// <param name="Xs">Places, rising.</param>
/// <param name="Ys">Values; where one is not finite (or, in decades, not above 0) the line is broken.</param>
public sealed record Curve(CurveStyle Style, double[] Xs, double[] Ys);

/// <summary>One pair of axes with curves over a common quantity.</summary>
public sealed record CurvePanel
{
    /// <summary>Headline.</summary>
    public required string Title { get; init; }

    /// <summary>What stands under the horizontal axis.</summary>
    public required string XTitle { get; init; }

    /// <summary>The curves.</summary>
    public required IReadOnlyList<Curve> Curves { get; init; }

    /// <summary>Whether the vertical axis goes in decades.</summary>
    public bool IsInDecades { get; init; }

    /// <summary>Lower end of the vertical axis; in decades above 0.</summary>
    public required double Lowest { get; init; }

    /// <summary>Upper end of the vertical axis; what lies beyond an end is drawn at the end.</summary>
    public required double Highest { get; init; }
}
