// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>One figure over the levels of two keys: a cell each.</summary>
internal sealed record HeatPanel
{
    internal required string Title { get; init; }

    internal required string XTitle { get; init; }

    internal required string YTitle { get; init; }

    internal required IReadOnlyList<string> XLevels { get; init; }

    internal required IReadOnlyList<string> YLevels { get; init; }

    /// <summary>Row by row from the first level of the vertical key; null where the figure is undefined or there was no run.</summary>
    internal required double?[,] Figures { get; init; }

    /// <summary>Whether the requirement is met, cell by cell.</summary>
    internal required bool[,] IsMet { get; init; }

    /// <summary>The figure as it is written into a cell.</summary>
    internal required Func<double, string> Text { get; init; }
}

/// <summary>Maps of figures over two keys. Met cells are light blue, others darker orange with a corner; a bold line parts the two.</summary>
internal sealed class HeatChart : Chart
{
    private const float LeftPx = 150;
    private const float GapPx = 130;
    private const int TitlePx = 78;
    private const int FooterPx = 84;
    private const float SmallestTextPx = 11;
    private const int FewLevels = 10;

    private static readonly SKColor s_met = new(0xDC, 0xEC, 0xF6);
    private static readonly SKColor s_notMet = new(0xF4, 0xC9, 0xA4);
    private static readonly SKColor s_unknown = new(0xF4, 0xF4, 0xF4);

    private readonly ChartHead _head;
    private readonly IReadOnlyList<HeatPanel> _panels;
    private readonly int _columns;
    private readonly int _dataPx;

    internal HeatChart(string title, IReadOnlyList<HeatPanel> panels)
    {
        _head = new ChartHead(title, []);
        _panels = panels;
        _columns = panels.Count == 1 || panels.Max(p => p.XLevels.Count) > FewLevels ? 1 : 2;
        _dataPx = Math.Clamp(panels.Max(p => p.YLevels.Count) * 40, 160, 900);
    }

    internal override int HeightPx => _head.HeightPx + ((_panels.Count + _columns - 1) / _columns * (TitlePx + _dataPx + FooterPx)) + 34;

    internal override void Draw(SKCanvas canvas, Pens pens)
    {
        _head.Draw(canvas, pens);
        float width = (Ink.WidthPx - LeftPx - Ink.RightPx - ((_columns - 1) * GapPx)) / _columns;
        for (int i = 0; i < _panels.Count; i++)
        {
            float left = LeftPx + (i % _columns * (width + GapPx));
            float top = _head.HeightPx + (i / _columns * (TitlePx + _dataPx + FooterPx)) + TitlePx;
            DrawPanel(canvas, pens, _panels[i], new SKRect(left, top, left + width, top + _dataPx));
        }

        DrawLegend(canvas, pens, HeightPx - 20);
    }

    private static void DrawLegend(SKCanvas canvas, Pens pens, float y)
    {
        float x = LeftPx;
        foreach ((SKColor color, bool hasCorner, string text) in new[]
        {
            (s_met, false, "requirement met"), (s_notMet, true, "not met"), (s_unknown, false, "no run, or figure undefined"),
        })
        {
            SKRect box = new(x, y - 18, x + 34, y + 4);
            pens.Box(canvas, color, box);
            if (hasCorner)
            {
                Corner(canvas, pens, box);
            }

            pens.Frame(canvas, Ink.Frame, box);
            pens.Text(canvas, text, x + 44, y, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text);
            x += 44 + TitleRow.Width(text, Ink.MarkLabelPx) + 40;
        }
    }

    private static void DrawPanel(SKCanvas canvas, Pens pens, HeatPanel panel, SKRect data)
    {
        Plotting plot = new(data, AxisScale.OfPlaces(panel.XLevels), AxisScale.OfPlaces(panel.YLevels));
        Fit.Text(canvas, pens, panel.Title, data.Left, data.Top - 44, SKTextAlign.Left, Ink.PanelTitlePx, Ink.Text, data.Width);
        Fit.Text(canvas, pens, "↑ " + panel.YTitle, data.Left, data.Top - 14, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text, data.Width);
        float textPx = TextPx(panel, data);
        for (int row = 0; row < panel.YLevels.Count; row++)
        {
            for (int column = 0; column < panel.XLevels.Count; column++)
            {
                DrawCell(canvas, pens, panel, Cell(plot, row, column), row, column, textPx);
            }
        }

        DrawLines(canvas, pens, panel, plot);
        DrawBorder(canvas, pens, panel, plot);
        plot.Frame(canvas, pens, data.Bottom);
        Fit.Text(canvas, pens, panel.XTitle + " →", data.MidX, data.Bottom + 58, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width + 60);
    }

    private static void DrawCell(SKCanvas canvas, Pens pens, HeatPanel panel, SKRect cell, int row, int column, float textPx)
    {
        double? figure = panel.Figures[row, column];
        bool isMet = panel.IsMet[row, column];
        pens.Box(canvas, figure is null ? s_unknown : isMet ? s_met : s_notMet, cell);
        if (figure is not null && !isMet)
        {
            Corner(canvas, pens, cell);
        }

        if (textPx >= SmallestTextPx)
        {
            string text = figure is double f ? panel.Text(f) : "–";
            pens.Text(canvas, text, cell.MidX, cell.MidY + (0.36f * textPx), SKTextAlign.Center, textPx, Ink.Text);
        }
    }

    // One size for all cells: the longest text decides. Too small to read: none at all, the table has the numbers.
    private static float TextPx(HeatPanel panel, SKRect data)
    {
        string longest = panel.Figures.Cast<double?>().Select(f => f is double v ? panel.Text(v) : "").MaxBy(t => t.Length) ?? "";
        float widest = TitleRow.Width(longest, 20);
        float room = (data.Width / panel.XLevels.Count) - 16;
        float height = (data.Height / panel.YLevels.Count) - 6;
        return Math.Min(19, Math.Min(height, widest == 0 ? 19 : MathF.Floor(20 * room / widest)));
    }

    private static void DrawLines(SKCanvas canvas, Pens pens, HeatPanel panel, Plotting plot)
    {
        for (int column = 1; column < panel.XLevels.Count; column++)
        {
            pens.Line(canvas, Ink.Paper, 1.2f, plot.AtX(column - 0.5), plot.Data.Top, plot.AtX(column - 0.5), plot.Data.Bottom);
        }

        for (int row = 1; row < panel.YLevels.Count; row++)
        {
            pens.Line(canvas, Ink.Paper, 1.2f, plot.Data.Left, plot.AtY(row - 0.5), plot.Data.Right, plot.AtY(row - 0.5));
        }
    }

    private static void DrawBorder(SKCanvas canvas, Pens pens, HeatPanel panel, Plotting plot)
    {
        bool? Met(int row, int column) => panel.Figures[row, column] is null ? null : panel.IsMet[row, column];
        for (int row = 0; row < panel.YLevels.Count; row++)
        {
            for (int column = 0; column < panel.XLevels.Count; column++)
            {
                SKRect cell = Cell(plot, row, column);
                if (column + 1 < panel.XLevels.Count && Met(row, column) is bool here && Met(row, column + 1) is bool right && here != right)
                {
                    pens.Line(canvas, Ink.Text, 3.5f, cell.Right, cell.Top, cell.Right, cell.Bottom);
                }

                if (row + 1 < panel.YLevels.Count && Met(row, column) is bool below && Met(row + 1, column) is bool above && below != above)
                {
                    pens.Line(canvas, Ink.Text, 3.5f, cell.Left, cell.Top, cell.Right, cell.Top);
                }
            }
        }
    }

    private static SKRect Cell(Plotting plot, int row, int column) => new(
        plot.AtX(column - 0.5), plot.AtY(row + 0.5), plot.AtX(column + 0.5), plot.AtY(row - 0.5));

    private static void Corner(SKCanvas canvas, Pens pens, SKRect cell)
    {
        float size = Math.Min(11, Math.Min(cell.Width, cell.Height) / 3);
        pens.Polygon(canvas, Ink.Detected, (cell.Right - size, cell.Top), (cell.Right, cell.Top), (cell.Right, cell.Top + size));
    }
}
