// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Lays panels of curves out beside one another, three in a row.</summary>
internal static class CurveGrid
{
    internal const int MostPanels = 9;
    private const int Columns = 3;
    private const int HeaderPx = 62;
    private const int TitlePx = 52;
    private const int DataPx = 330;
    private const int FooterPx = 78;
    private const int BetweenPx = 96;

    internal static int HeightPx(int panels) => HeaderPx + ((panels + Columns - 1) / Columns * (TitlePx + DataPx + FooterPx));

    internal static void Draw(
        SKCanvas canvas, IReadOnlyList<CurvePanel> panels, IReadOnlyList<(CurveStyle Style, string Text)> legend, string title)
    {
        using Pens pens = new();
        LegendEntry[] entries = [.. legend.Select(l => new LegendEntry(Sign(l.Style), l.Text))];
        TitleRow.Draw(canvas, pens, title, Ink.FigureTitlePx, entries, BetweenPx, Ink.WidthPx - Ink.RightPx, 42);
        int columns = Math.Min(Columns, panels.Count);
        float width = (Ink.WidthPx - Ink.RightPx - (columns * BetweenPx)) / (float)columns;
        for (int i = 0; i < panels.Count; i++)
        {
            float left = BetweenPx + (i % columns * (width + BetweenPx));
            float top = HeaderPx + (i / columns * (TitlePx + DataPx + FooterPx)) + TitlePx;
            Fit.Text(canvas, pens, panels[i].Title, left, top - 14, SKTextAlign.Left, Ink.PanelTitlePx, Ink.Text, width);
            DrawPanel(canvas, pens, panels[i], new SKRect(left, top, left + width, top + DataPx));
        }
    }

    private static void DrawPanel(SKCanvas canvas, Pens pens, CurvePanel panel, SKRect data)
    {
        Span x = new();
        foreach (Curve curve in panel.Curves)
        {
            x.Include(curve.Xs);
        }

        (double Low, double High) y = (Height(panel, panel.Lowest), Height(panel, panel.Highest));
        using PanelPlot plot = new(x.Padded(0.03), y, 8, 6, true);
        if (panel.IsInDecades)
        {
            double[] decades = [.. Enumerable.Range((int)Math.Ceiling(y.Low - 1e-9), (int)Math.Floor(y.High + 1e-9) - (int)Math.Ceiling(y.Low - 1e-9) + 1)
                .Select(d => (double)d)];
            plot.LabelY(decades, Array.ConvertAll(decades, d => Math.Pow(10, d).ToString("0.####", CultureInfo.InvariantCulture)));
        }

        plot.Draw(canvas, data);
        pens.Frame(canvas, Ink.Frame, data);
        foreach (Curve curve in panel.Curves)
        {
            DrawCurve(canvas, pens, panel, plot, curve);
        }

        Fit.Text(canvas, pens, panel.XTitle, data.MidX, data.Bottom + 58, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width);
    }

    private static void DrawCurve(SKCanvas canvas, Pens pens, CurvePanel panel, PanelPlot plot, Curve curve)
    {
        bool isFirst = curve.Style is CurveStyle.First or CurveStyle.FirstDashed;
        bool isDashed = curve.Style is CurveStyle.FirstDashed or CurveStyle.SecondDashed;
        SKColor color = isFirst ? Ink.Truth : Ink.Detected;
        SKPoint? before = null;
        for (int i = 0; i < curve.Xs.Length; i++)
        {
            bool isShown = double.IsFinite(curve.Ys[i]) && (!panel.IsInDecades || curve.Ys[i] > 0);
            SKPoint? here = isShown ? plot.At(curve.Xs[i], Height(panel, Math.Clamp(curve.Ys[i], panel.Lowest, panel.Highest))) : null;
            if (here is SKPoint to)
            {
                if (before is SKPoint from)
                {
                    pens.Line(canvas, color, Ink.MarkWidthPx, from.X, from.Y, to.X, to.Y, isDashed);
                }

                pens.Spot(canvas, color, to.X, to.Y, Pens.DotRadiusPx);
            }

            before = here;
        }
    }

    private static double Height(CurvePanel panel, double value) => panel.IsInDecades ? Math.Log10(value) : value;

    private static Symbol Sign(CurveStyle style) => style switch
    {
        CurveStyle.First => Symbol.BlueLine,
        CurveStyle.FirstDashed => Symbol.BlueDashes,
        CurveStyle.Second => Symbol.VermilionLine,
        _ => Symbol.VermilionDashes,
    };
}
