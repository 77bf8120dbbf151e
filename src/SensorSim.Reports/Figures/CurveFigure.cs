// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Figures;

/// <summary>Curves of a study over a common quantity, three panels in a row, one legend for all.</summary>
/// <remarks>The same input gives the same bytes on one machine. Safe to call from several threads at once.</remarks>
public static class CurveFigure
{
    /// <summary>Writes the figure to a file; .png or .svg chooses the format.</summary>
    /// <param name="panels">1 to 9 panels, three in a row.</param>
    /// <param name="legend">Text of each style that occurs, in order of the styles.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="path">File to create or replace; writing it whole or not at all is up to the caller.</param>
    /// <exception cref="ArgumentException">Wrong number of panels, a wrong range, arrays of unequal length, or another file ending.</exception>
    public static void Write(IReadOnlyList<CurvePanel> panels, IReadOnlyList<(CurveStyle Style, string Text)> legend, string title, string path)
    {
        Check(panels, legend);
        Page.Write(path, title, CurveGrid.HeightPx(panels.Count), canvas => CurveGrid.Draw(canvas, panels, legend, title));
    }

    /// <summary>Writes the figure to a stream, which stays open.</summary>
    /// <param name="panels">1 to 9 panels, three in a row.</param>
    /// <param name="legend">Text of each style that occurs, in order of the styles.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="stream">Where the bytes go.</param>
    /// <param name="format">Pixels or vectors.</param>
    /// <exception cref="ArgumentException">Wrong number of panels, a wrong range, or arrays of unequal length.</exception>
    public static void Write(
        IReadOnlyList<CurvePanel> panels, IReadOnlyList<(CurveStyle Style, string Text)> legend, string title, Stream stream, FigureFormat format)
    {
        Check(panels, legend);
        Page.Write(stream, format, title, CurveGrid.HeightPx(panels.Count), canvas => CurveGrid.Draw(canvas, panels, legend, title));
    }

    private static void Check(IReadOnlyList<CurvePanel> panels, IReadOnlyList<(CurveStyle Style, string Text)> legend)
    {
        ArgumentNullException.ThrowIfNull(panels);
        ArgumentNullException.ThrowIfNull(legend);
        if (panels.Count is < 1 or > CurveGrid.MostPanels)
        {
            throw new ArgumentException($"A figure has 1 to {CurveGrid.MostPanels} panels of curves, not {panels.Count}.", nameof(panels));
        }

        foreach (CurvePanel panel in panels)
        {
            Check(panel);
        }
    }

    private static void Check(CurvePanel panel)
    {
        if (!(panel.Highest > panel.Lowest) || (panel.IsInDecades && !(panel.Lowest > 0)))
        {
            throw new ArgumentException(FormattableString.Invariant($"Panel \"{panel.Title}\": no range from {panel.Lowest:R} to {panel.Highest:R}."));
        }

        if (panel.Curves.FirstOrDefault(c => c.Xs.Length != c.Ys.Length) is Curve uneven)
        {
            throw new ArgumentException($"Panel \"{panel.Title}\": {uneven.Xs.Length} places but {uneven.Ys.Length} values.");
        }
    }
}
