// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Figures;

/// <summary>Signals under one another on a shared time axis, with true and detected events.</summary>
/// <remarks>The same input gives the same bytes on one machine. Safe to call from several threads at once.</remarks>
public static class SignalFigure
{
    /// <summary>Writes the figure to a file; .png or .svg chooses the format.</summary>
    /// <param name="panels">1 to 8 signals, top to bottom.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="path">File to create or replace; writing it whole or not at all is up to the caller.</param>
    /// <exception cref="ArgumentException">Wrong number of panels, arrays of unequal length, or another file ending.</exception>
    public static void Write(IReadOnlyList<SignalPanel> panels, string title, string path)
    {
        SignalTimePanel[] prepared = Prepare(panels);
        Page.Write(path, title, TimeStack.HeightPx(panels.Count), canvas => TimeStack.Draw(canvas, prepared, title));
    }

    /// <summary>Writes the figure to a stream, which stays open.</summary>
    /// <param name="panels">1 to 8 signals, top to bottom.</param>
    /// <param name="title">Headline of the figure.</param>
    /// <param name="stream">Where the bytes go.</param>
    /// <param name="format">Pixels or vectors.</param>
    /// <exception cref="ArgumentException">Wrong number of panels, or arrays of unequal length.</exception>
    public static void Write(IReadOnlyList<SignalPanel> panels, string title, Stream stream, FigureFormat format)
    {
        SignalTimePanel[] prepared = Prepare(panels);
        Page.Write(stream, format, title, TimeStack.HeightPx(panels.Count), canvas => TimeStack.Draw(canvas, prepared, title));
    }

    private static SignalTimePanel[] Prepare(IReadOnlyList<SignalPanel> panels)
    {
        ArgumentNullException.ThrowIfNull(panels);
        TimeStack.Check(panels.Count);
        return [.. panels.Select(panel => new SignalTimePanel(panel))];
    }
}
