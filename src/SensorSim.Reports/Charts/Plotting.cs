// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>A pair of axes on the page: grid, frame, ticks, and where a value lies.</summary>
internal sealed class Plotting(SKRect data, AxisScale x, AxisScale y)
{
    private const float LabelPx = 17;

    internal SKRect Data => data;

    internal AxisScale X => x;

    internal AxisScale Y => y;

    internal float AtX(double value) => data.Left + (data.Width * (float)x.Share(value));

    internal float AtY(double value) => data.Bottom - (data.Height * (float)y.Share(value));

    internal SKPoint At(double atX, double atY) => new(AtX(atX), AtY(atY));

    /// <summary>Whether a value lies on the vertical axis.</summary>
    internal bool IsOnY(double value) => y.Share(value) is >= -1e-9 and <= 1 + 1e-9;

    /// <summary>Where a value lies, held within the frame.</summary>
    internal float InsideY(double value) => Math.Clamp(AtY(value), data.Top, data.Bottom);

    internal float InsideX(double value) => Math.Clamp(AtX(value), data.Left, data.Right);

    /// <summary>Grid lines under everything else.</summary>
    internal void Grid(SKCanvas canvas, Pens pens)
    {
        foreach (double at in x.Positions)
        {
            pens.Line(canvas, Ink.Grid, 1, AtX(at), data.Top, AtX(at), data.Bottom);
        }

        foreach (double at in y.Positions)
        {
            pens.Line(canvas, Ink.Grid, 1, data.Left, AtY(at), data.Right, AtY(at));
        }
    }

    /// <summary>What the vertical axis shows, over its top.</summary>
    internal void TitleY(SKCanvas canvas, Pens pens, string title)
    {
        if (title.Length > 0)
        {
            Fit.Text(canvas, pens, $"↑ {title}{y.Stretched}", data.Left, data.Top - 14, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text, data.Width);
        }
    }

    /// <summary>Frame and numbers; those of the horizontal axis stand under <paramref name="labelTop"/>.</summary>
    internal void Frame(SKCanvas canvas, Pens pens, float labelTop)
    {
        pens.Frame(canvas, Ink.Frame, data);
        LabelX(canvas, pens, labelTop);
        for (int i = 0; i < y.Positions.Length; i++)
        {
            pens.Line(canvas, Ink.Frame, 1.2f, data.Left - 5, AtY(y.Positions[i]), data.Left, AtY(y.Positions[i]));
            pens.Text(canvas, y.Labels[i], data.Left - 9, AtY(y.Positions[i]) + (0.36f * LabelPx), SKTextAlign.Right, LabelPx, Ink.Text);
        }
    }

    /// <summary>Names of the horizontal axis; where they would touch, some are left out.</summary>
    private void LabelX(SKCanvas canvas, Pens pens, float top)
    {
        float free = float.NegativeInfinity;
        float room = x.Positions.Length < 2 ? data.Width : Math.Max(110, AtX(x.Positions[1]) - AtX(x.Positions[0]) - 8);
        for (int i = 0; i < x.Positions.Length; i++)
        {
            float at = AtX(x.Positions[i]);
            pens.Line(canvas, Ink.Frame, 1.2f, at, top, at, top + 5);
            string text = Fit.Cut(x.Labels[i], LabelPx, room);
            float half = TitleRow.Width(text, LabelPx) / 2;
            if (at - half < free)
            {
                continue;
            }

            pens.Text(canvas, text, at, top + 8 + LabelPx, SKTextAlign.Center, LabelPx, Ink.Text);
            free = at + half + 8;
        }
    }
}
