// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Short texts at the upper edge of a panel, above their marks.</summary>
internal static class MarkLabels
{
    internal const float LinePx = 20;
    private const float FreePx = 6;

    /// <summary>Draws from left to right and leaves out a text that would touch the one before.</summary>
    /// <remarks>Line 0 is at the top, line 1 under it: truth and detections do not share one.</remarks>
    internal static void Draw(
        SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, IEnumerable<PlotMark> marks, SKColor color, int line)
    {
        float free = data.Left;
        foreach (PlotMark mark in marks.Where(mark => !string.IsNullOrEmpty(mark.Label)).OrderBy(mark => mark.TimeS))
        {
            float width = TitleRow.Width(mark.Label!, Ink.MarkLabelPx);
            bool isLine = mark.Value is null || !double.IsFinite(mark.Value.Value);
            float wanted = plot.At(mark.TimeS, 0).X + (isLine ? FreePx : -(width / 2));
            float left = Math.Clamp(wanted, data.Left + 2, Math.Max(data.Left + 2, data.Right - width - 2));
            if (left < free)
            {
                continue;
            }

            pens.Text(canvas, mark.Label!, left, data.Top + 18 + (line * LinePx), SKTextAlign.Left, Ink.MarkLabelPx, color);
            free = left + width + FreePx;
        }
    }
}
