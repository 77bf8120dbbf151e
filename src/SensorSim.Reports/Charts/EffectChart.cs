// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>What one key alone does to a figure.</summary>
/// <param name="Name">The key with its unit.</param>
/// <param name="Values">The figure at each value of the key, with the value as it is written beside the bar.</param>
internal sealed record EffectBar(string Name, IReadOnlyList<(string Level, double Figure)> Values);

/// <summary>One figure of one detector, a bar for each key.</summary>
/// <param name="Title">Headline.</param>
/// <param name="IsShare">Whether the figure is a share, 0 to 1.</param>
/// <param name="Base">The figure where every key has its base value; null when it is undefined.</param>
/// <param name="Limits">The requirement.</param>
/// <param name="Bars">The keys, the one with the largest effect first.</param>
internal sealed record EffectPanel(string Title, bool IsShare, double? Base, IReadOnlyList<double> Limits, IReadOnlyList<EffectBar> Bars)
{
    /// <summary>What the axis shows, with its unit.</summary>
    internal string XTitle { get; init; } = "";
}

/// <summary>Effect of each key alone: from the lowest to the highest figure that its values give, the others at their base values.</summary>
internal sealed class EffectChart : Chart
{
    private const float LeftPx = 470;
    private const float RightPx = 150;
    private const int TitlePx = 56;
    private const int BarPx = 46;
    private const int FooterPx = 66;

    private static readonly SKColor s_bar = new(0xB9, 0xD3, 0xE6);

    private readonly ChartHead _head;
    private readonly IReadOnlyList<EffectPanel> _panels;

    internal EffectChart(string title, IReadOnlyList<EffectPanel> panels)
    {
        _head = new ChartHead(title, []);
        _panels = panels;
    }

    internal override int HeightPx => _head.HeightPx + _panels.Sum(p => PanelPx(p)) + 30;

    internal override void Draw(SKCanvas canvas, Pens pens)
    {
        _head.Draw(canvas, pens);
        float top = _head.HeightPx;
        foreach (EffectPanel panel in _panels)
        {
            DrawPanel(canvas, pens, panel, new SKRect(LeftPx, top + TitlePx, Ink.WidthPx - RightPx, top + TitlePx + (BarPx * panel.Bars.Count)));
            top += PanelPx(panel);
        }

        float y = HeightPx - 18;
        pens.Line(canvas, Ink.Text, 1.8f, LeftPx, y - 6, LeftPx + 40, y - 6, dashed: true);
        pens.Text(canvas, "requirement", LeftPx + 50, y, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text);
        pens.Line(canvas, Ink.Text, 3, LeftPx + 220, y - 6, LeftPx + 260, y - 6);
        pens.Text(canvas, "every key at its base value", LeftPx + 270, y, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text);
    }

    private static int PanelPx(EffectPanel panel) => TitlePx + (BarPx * panel.Bars.Count) + FooterPx;

    private static void DrawPanel(SKCanvas canvas, Pens pens, EffectPanel panel, SKRect data)
    {
        Span span = new();
        foreach (double value in panel.Limits.Concat(panel.Bars.SelectMany(b => b.Values.Select(v => v.Figure))).Append(panel.Base ?? double.NaN))
        {
            span.Include(value);
        }

        Plotting plot = new(data, AxisScale.OfFigure(span, panel.IsShare, panel.Limits[0], 9, 0.08), AxisScale.OfPlaces([.. panel.Bars.Select(_ => "")]));
        Fit.Text(canvas, pens, panel.Title, 96, data.Top - 18, SKTextAlign.Left, Ink.PanelTitlePx, Ink.Text, Ink.WidthPx - 96 - Ink.RightPx);
        foreach (double at in plot.X.Positions)
        {
            pens.Line(canvas, Ink.Grid, 1, plot.AtX(at), data.Top, plot.AtX(at), data.Bottom);
        }

        for (int i = 0; i < panel.Bars.Count; i++)
        {
            DrawBar(canvas, pens, plot, panel.Bars[i], data.Top + ((i + 0.5f) * BarPx));
        }

        foreach (double limit in panel.Limits)
        {
            pens.Line(canvas, Ink.Text, 1.8f, plot.AtX(limit), data.Top, plot.AtX(limit), data.Bottom, dashed: true);
        }

        if (panel.Base is double atBase)
        {
            pens.Line(canvas, Ink.Text, 3, plot.AtX(atBase), data.Top, plot.AtX(atBase), data.Bottom);
        }

        plot.Frame(canvas, pens, data.Bottom);
        if (panel.XTitle.Length > 0)
        {
            Fit.Text(canvas, pens, $"{panel.XTitle}{plot.X.Stretched} →", data.MidX, data.Bottom + 50, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width);
        }
    }

    private static void DrawBar(SKCanvas canvas, Pens pens, Plotting plot, EffectBar bar, float y)
    {
        const float TextPx = 16;
        Fit.Text(canvas, pens, bar.Name, plot.Data.Left - 14, y + 6, SKTextAlign.Right, Ink.MarkLabelPx, Ink.Text, plot.Data.Left - 14 - 20);
        (string Level, double Figure)[] known = [.. bar.Values.Where(v => double.IsFinite(v.Figure)).OrderBy(v => v.Figure)];
        if (known.Length == 0)
        {
            pens.Text(canvas, "no figure is defined", plot.Data.MidX, y + 6, SKTextAlign.Center, TextPx, Ink.Frame);
            return;
        }

        float left = plot.InsideX(known[0].Figure);
        float right = plot.InsideX(known[^1].Figure);
        pens.Box(canvas, s_bar, new SKRect(left, y - 13, right, y + 13));
        foreach ((string _, double figure) in known)
        {
            pens.Line(canvas, Ink.Truth, 3, plot.InsideX(figure), y - 13, plot.InsideX(figure), y + 13);
        }

        if (known[0].Figure == known[^1].Figure)
        {
            pens.Text(canvas, known.Length == 1 ? "one value only" : "no difference", right + 10, y + 6, SKTextAlign.Left, TextPx, Ink.Text);
            return;
        }

        string low = Fit.Cut(known[0].Level, TextPx, 120);
        string high = Fit.Cut(known[^1].Level, TextPx, 120);
        float lowWidth = TitleRow.Width(low, TextPx);
        bool hasRoom = left - lowWidth - 6 > plot.Data.Left;
        if (hasRoom)
        {
            pens.Text(canvas, low, left - 6, y + 6, SKTextAlign.Right, TextPx, Ink.Text);
        }

        pens.Text(canvas, hasRoom ? high : $"{low} … {high}", right + 6, y + 6, SKTextAlign.Left, TextPx, Ink.Text);
    }
}
