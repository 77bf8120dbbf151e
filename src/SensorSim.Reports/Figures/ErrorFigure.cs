// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Figures;

/// <summary>Distributions of timing errors with bias, SD and 95th percentile, one panel per kind of event.</summary>
/// <remarks>The same input gives the same bytes on one machine. Safe to call from several threads at once.</remarks>
public static class ErrorFigure
{
    /// <summary>Writes the figure to a file; .png or .svg chooses the format.</summary>
    /// <param name="panels">1 to 9 distributions, three in a row.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="path">File to create or replace; writing it whole or not at all is up to the caller.</param>
    /// <exception cref="ArgumentException">Wrong number of panels, arrays of unequal length, or another file ending.</exception>
    public static void Write(IReadOnlyList<ErrorPanel> panels, string title, string path)
    {
        Check(panels);
        Page.Write(path, title, ErrorGrid.HeightPx(panels.Count), canvas => ErrorGrid.Draw(canvas, panels, title));
    }

    /// <summary>Writes the figure to a stream, which stays open.</summary>
    /// <param name="panels">1 to 9 distributions, three in a row.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="stream">Where the bytes go.</param>
    /// <param name="format">Pixels or vectors.</param>
    /// <exception cref="ArgumentException">Wrong number of panels, or arrays of unequal length.</exception>
    public static void Write(IReadOnlyList<ErrorPanel> panels, string title, Stream stream, FigureFormat format)
    {
        Check(panels);
        Page.Write(stream, format, title, ErrorGrid.HeightPx(panels.Count), canvas => ErrorGrid.Draw(canvas, panels, title));
    }

    private static void Check(IReadOnlyList<ErrorPanel> panels)
    {
        ArgumentNullException.ThrowIfNull(panels);
        if (panels.Count is < 1 or > ErrorGrid.MostPanels)
        {
            throw new ArgumentException($"A figure has 1 to {ErrorGrid.MostPanels} distributions, not {panels.Count}.", nameof(panels));
        }

        foreach (ErrorPanel panel in panels)
        {
            if (!(panel.BinWidthMs > 0) || !double.IsFinite(panel.BinWidthMs) || !double.IsFinite(panel.FirstBinMs))
            {
                throw new ArgumentException(
                    FormattableString.Invariant(
                        $"Panel \"{panel.Title}\": bins of {panel.BinWidthMs:R} ms from {panel.FirstBinMs:R} ms; the width must be above 0, both finite."),
                    nameof(panels));
            }
        }
    }
}
