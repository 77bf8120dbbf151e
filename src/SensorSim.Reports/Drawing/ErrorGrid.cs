// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Lays distributions out beside one another, three in a row.</summary>
internal static class ErrorGrid
{
    internal const int MostPanels = 9;
    private const int Columns = 3;
    private const int HeaderPx = 62;
    private const int TextRowsPx = 112;
    private const int DataPx = 330;
    private const int FooterPx = 78;
    private const int BetweenPx = 116;

    internal static int HeightPx(int panels) => HeaderPx + (Rows(panels) * (TextRowsPx + DataPx + FooterPx));

    internal static void Draw(SKCanvas canvas, IReadOnlyList<ErrorPanel> panels, string title)
    {
        using Pens pens = new();
        LegendEntry[] legend = [new(Symbol.VermilionLine, "bias"), new(Symbol.BlueDashes, "bias ± SD")];
        TitleRow.Draw(canvas, pens, title, Ink.FigureTitlePx, legend, BetweenPx, Ink.WidthPx - Ink.RightPx, 42);
        int columns = Math.Min(Columns, panels.Count);
        float width = (Ink.WidthPx - Ink.RightPx - (columns * BetweenPx)) / (float)columns;
        for (int i = 0; i < panels.Count; i++)
        {
            float left = BetweenPx + (i % columns * (width + BetweenPx));
            float top = HeaderPx + (i / columns * (TextRowsPx + DataPx + FooterPx));
            DrawTexts(canvas, pens, panels[i], left, top, width);
            DrawPanel(canvas, pens, panels[i], new SKRect(left, top + TextRowsPx, left + width, top + TextRowsPx + DataPx));
        }
    }

    private static int Rows(int panels) => (panels + Columns - 1) / Columns;

    private static void DrawTexts(SKCanvas canvas, Pens pens, ErrorPanel panel, float left, float top, float width)
    {
        ErrorSummary s = panel.Summary;
        Fit.Text(canvas, pens, panel.Title, left, top + 34, SKTextAlign.Left, Ink.PanelTitlePx, Ink.Text, width);
        if (s.Count == 0)
        {
            pens.Text(canvas, "n 0", left, top + 66, SKTextAlign.Left, Ink.TextPx, Ink.Text);
            return;
        }

        string one = string.Create(CultureInfo.InvariantCulture, $"n {s.Count}{(panel.BeyondCount == 0 ? "" : $" ({panel.BeyondCount} beyond the axis)")} · bias {Ms(s.BiasMs, "+0.00;-0.00;0.00")}");
        string two = string.Create(CultureInfo.InvariantCulture, $"SD {Ms(s.SdMs, "0.00")} · p95 |error| {Ms(s.P95Ms, "0.00")}");
        Fit.Text(canvas, pens, one, left, top + 66, SKTextAlign.Left, Ink.TextPx, Ink.Text, width);
        Fit.Text(canvas, pens, two, left, top + 94, SKTextAlign.Left, Ink.TextPx, Ink.Text, width);
    }

    // A single error has no standard deviation.
    private static string Ms(double value, string format) =>
        double.IsFinite(value) ? value.ToString(format, CultureInfo.InvariantCulture) + " ms" : "undefined";

    private static void DrawPanel(SKCanvas canvas, Pens pens, ErrorPanel panel, SKRect data)
    {
        Bars bars = Bars.Of(panel.FirstBinMs, panel.BinWidthMs, panel.Counts);
        bool hasLines = panel.Summary.Count > 0 && double.IsFinite(panel.Summary.BiasMs);
        double sd = double.IsFinite(panel.Summary.SdMs) ? panel.Summary.SdMs : 0;

        // Zero belongs in view: only beside it a bias can be seen.
        Span x = new();
        x.Include(0);
        if (bars.Heights.Length > 0)
        {
            x.Include(bars.FirstMs - (2 * bars.WidthMs));
            x.Include(bars.LastMs + (2 * bars.WidthMs));
        }

        if (hasLines)
        {
            x.Include(panel.Summary.BiasMs - sd);
            x.Include(panel.Summary.BiasMs + sd);
        }

        using PanelPlot plot = new(x.Padded(0.04), (0, Math.Max(1, bars.Highest * 1.08)), data.Width > 800 ? 12 : 6, 6, true, 1);
        for (int i = 0; i < bars.Heights.Length; i++)
        {
            if (bars.Heights[i] > 0)
            {
                plot.Bar(bars.FirstMs + (i * bars.WidthMs), bars.FirstMs + ((i + 1) * bars.WidthMs), bars.Heights[i]);
            }
        }

        bool isEmpty = bars.Heights.Length == 0;
        if (isEmpty)
        {
            plot.HideYTicks();
        }

        plot.Draw(canvas, data);
        pens.Frame(canvas, Ink.Frame, data);
        if (!isEmpty)
        {
            Upright(canvas, pens, plot, data, 0, Ink.Frame, 1.6f, false);
        }

        if (hasLines)
        {
            Upright(canvas, pens, plot, data, panel.Summary.BiasMs - sd, Ink.Truth, Ink.MarkWidthPx, true);
            Upright(canvas, pens, plot, data, panel.Summary.BiasMs + sd, Ink.Truth, Ink.MarkWidthPx, true);
            Upright(canvas, pens, plot, data, panel.Summary.BiasMs, Ink.Detected, Ink.MarkWidthPx, false);
        }

        if (isEmpty)
        {
            pens.Text(canvas, "no data", data.MidX, data.MidY, SKTextAlign.Center, Ink.PanelTitlePx, Ink.Frame);
        }

        string axis = string.Create(CultureInfo.InvariantCulture, $"detected minus true (ms); events per {bars.WidthMs:0.###} ms");
        Fit.Text(canvas, pens, axis, data.MidX, data.Bottom + 58, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width);
    }

    private static void Upright(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, double ms, SKColor color, float widthPx, bool dashed)
    {
        float x = plot.At(ms, 0).X;
        pens.Line(canvas, color, widthPx, x, data.Bottom, x, data.Top, dashed);
    }
}
