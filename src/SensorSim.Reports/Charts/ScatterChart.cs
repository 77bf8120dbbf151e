// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>One figure over one key, a sign for each point of the study.</summary>
internal sealed record ScatterPanel
{
    internal required string XTitle { get; init; }

    internal bool IsInRatios { get; init; }

    /// <summary>Words of the key, in place of numbers; the places are then the horizontal values. Null: the key has numbers.</summary>
    internal IReadOnlyList<string>? Words { get; init; }

    /// <summary>Places and figures; figures that are not finite are left out.</summary>
    internal required IReadOnlyList<(int Detector, double X, double Figure)> Signs { get; init; }
}

/// <summary>Main effects: one figure against each key alone, three panels in a row, one vertical axis for all.</summary>
internal sealed class ScatterChart : Chart
{
    private const int Columns = 3;
    private const float LeftPx = 112;
    private const float GapPx = 92;
    private const int TitlePx = 30;
    private const int TopPx = 20;
    private const int DataPx = 330;
    private const int FooterPx = 84;

    private readonly ChartHead _head;
    private readonly IReadOnlyList<ScatterPanel> _panels;
    private readonly IReadOnlyList<double> _limits;
    private readonly bool _isShare;
    private readonly string _yTitle;

    internal ScatterChart(string title, IReadOnlyList<string> labels, string yTitle, bool isShare, IReadOnlyList<double> limits, IReadOnlyList<ScatterPanel> panels)
    {
        _yTitle = yTitle;
        _isShare = isShare;
        _head = new ChartHead(title, labels);
        _limits = limits;
        _panels = panels;
    }

    internal override int HeightPx => _head.HeightPx + TitlePx + ((_panels.Count + Columns - 1) / Columns * (TopPx + DataPx + FooterPx));

    internal override void Draw(SKCanvas canvas, Pens pens)
    {
        _head.Draw(canvas, pens);
        Span heights = new();
        foreach (double height in _limits.Concat(_panels.SelectMany(p => p.Signs.Select(s => s.Figure))))
        {
            heights.Include(height);
        }

        AxisScale y = AxisScale.OfFigure(heights, _isShare, _limits[0], 7, 0.06);
        int columns = Math.Min(Columns, _panels.Count);
        float width = (Ink.WidthPx - LeftPx - Ink.RightPx - ((columns - 1) * GapPx)) / columns;
        Fit.Text(canvas, pens, $"↑ {_yTitle}{y.Stretched}", LeftPx, _head.HeightPx + 18, SKTextAlign.Left, Ink.MarkLabelPx, Ink.Text, Ink.WidthPx - LeftPx - Ink.RightPx);
        for (int i = 0; i < _panels.Count; i++)
        {
            float left = LeftPx + (i % columns * (width + GapPx));
            float top = _head.HeightPx + TitlePx + (i / columns * (TopPx + DataPx + FooterPx)) + TopPx;
            DrawPanel(canvas, pens, _panels[i], y, new SKRect(left, top, left + width, top + DataPx));
        }
    }

    private void DrawPanel(SKCanvas canvas, Pens pens, ScatterPanel panel, AxisScale y, SKRect data)
    {
        Span xs = new();
        foreach ((int _, double x, double _) in panel.Signs)
        {
            xs.Include(x);
        }

        AxisScale scale = panel.Words is null ? AxisScale.Of(xs, panel.IsInRatios, 7, 0.04) : AxisScale.OfPlaces(panel.Words);
        Plotting plot = new(data, scale, y);
        plot.Grid(canvas, pens);
        foreach (double limit in _limits)
        {
            pens.Line(canvas, Ink.Text, 1.8f, data.Left, plot.AtY(limit), data.Right, plot.AtY(limit), dashed: true);
        }

        float size = panel.Signs.Count > 300 ? 3 : 4.5f;
        foreach (IGrouping<int, (int Detector, double X, double Figure)> group in panel.Signs.GroupBy(s => s.Detector))
        {
            using SeriesStyle style = new(group.Key);
            foreach ((int _, double x, double figure) in group.Where(s => double.IsFinite(s.Figure)))
            {
                style.Sign(canvas, plot.InsideX(x), plot.InsideY(figure), size);
            }
        }

        plot.Frame(canvas, pens, data.Bottom);
        Fit.Text(canvas, pens, panel.XTitle, data.MidX, data.Bottom + 58, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width + 70);
    }
}
