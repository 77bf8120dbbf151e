// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Figures;

/// <summary>An ECG strip on millimetre paper, ten seconds a row, with the pulse under it and the truth about every beat.</summary>
/// <remarks>The same input gives the same bytes on one machine. Safe to call from several threads at once.</remarks>
public static class StripFigure
{
    /// <summary>Writes the figure to a file; .png or .svg chooses the format.</summary>
    /// <param name="panel">What to show.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="path">File to create or replace; writing it whole or not at all is up to the caller.</param>
    /// <exception cref="ArgumentException">No stretch or too long a one, arrays of unequal length, or another file ending.</exception>
    public static void Write(StripPanel panel, string title, string path)
    {
        StripSheet sheet = new(panel);
        Page.Write(path, title, sheet.HeightPx, canvas => sheet.Draw(canvas, title));
    }

    /// <summary>Writes the figure to a stream, which stays open.</summary>
    /// <param name="panel">What to show.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="stream">Where the bytes go.</param>
    /// <param name="format">Pixels or vectors.</param>
    /// <exception cref="ArgumentException">No stretch or too long a one, or arrays of unequal length.</exception>
    public static void Write(StripPanel panel, string title, Stream stream, FigureFormat format)
    {
        StripSheet sheet = new(panel);
        Page.Write(stream, format, title, sheet.HeightPx, canvas => sheet.Draw(canvas, title));
    }
}
