// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Scoring.Statistics;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>What one detector reached over the levels of a key.</summary>
internal sealed record LevelSeries
{
    /// <summary>Index of the detector: gives hue, dash and sign.</summary>
    internal required int Detector { get; init; }

    internal required IReadOnlyList<(double Level, double? Figure, Interval? Interval)> Levels { get; init; }

    /// <summary>The curve that the failure point is read from; empty: the levels are joined by straight lines.</summary>
    internal IReadOnlyList<(double Level, double Figure)> Curve { get; init; } = [];

    internal double? FailureLevel { get; init; }

    internal Interval? FailureInterval { get; init; }
}

/// <summary>One figure over the levels of one key.</summary>
internal sealed record LevelPanel
{
    internal required string Title { get; init; }

    internal required string XTitle { get; init; }

    /// <summary>What the vertical axis shows, with its unit.</summary>
    internal string YTitle { get; init; } = "";

    internal bool IsInRatios { get; init; }

    /// <summary>Whether the figure is a share, 0 to 1.</summary>
    internal bool IsShare { get; init; }

    /// <summary>Lines of the requirement; two where a figure with a sign may lie on either side.</summary>
    internal required IReadOnlyList<double> Limits { get; init; }

    internal required IReadOnlyList<LevelSeries> Series { get; init; }
}

/// <summary>Curves over levels with intervals, requirement and failure points, two panels in a row.</summary>
internal sealed class LevelChart : Chart
{
    private const int MostColumns = 2;
    private const float LeftPx = 112;
    private const float GapPx = 100;
    private const int TitlePx = 74;
    private const int DataPx = 380;
    private const int RowPx = 18;
    private const int FooterPx = 84;

    private readonly ChartHead _head;
    private readonly IReadOnlyList<LevelPanel> _panels;

    internal LevelChart(string title, IReadOnlyList<string> labels, IReadOnlyList<LevelPanel> panels)
    {
        _head = new ChartHead(title, labels);
        _panels = panels;
    }

    internal override int HeightPx => _head.HeightPx + Rows.Sum(RowHeightPx);

    private IEnumerable<LevelPanel[]> Rows => _panels.Chunk(MostColumns);

    internal override void Draw(SKCanvas canvas, Pens pens)
    {
        _head.Draw(canvas, pens);
        int columns = Math.Min(MostColumns, _panels.Count);
        float width = (Ink.WidthPx - LeftPx - Ink.RightPx - ((columns - 1) * GapPx)) / columns;
        float top = _head.HeightPx;
        foreach (LevelPanel[] row in Rows)
        {
            for (int i = 0; i < row.Length; i++)
            {
                float left = LeftPx + (i * (width + GapPx));
                DrawPanel(canvas, pens, row[i], new SKRect(left, top + TitlePx, left + width, top + TitlePx + DataPx));
            }

            top += RowHeightPx(row);
        }
    }

    private static int RowHeightPx(LevelPanel[] row) => TitlePx + DataPx + row.Max(StripPx) + FooterPx;

    // Under the curves each detector that has a failure point gets a line of its own, so that intervals never hide one another.
    private static int StripPx(LevelPanel panel) => panel.Series.Count(s => s.FailureLevel is not null) is int count and > 0 ? (count * RowPx) + 10 : 0;

    private static void DrawPanel(SKCanvas canvas, Pens pens, LevelPanel panel, SKRect data)
    {
        Plotting plot = new(data, AxisScale.Of(Xs(panel), panel.IsInRatios, 9, 0.04), AxisScale.OfFigure(Ys(panel), panel.IsShare, panel.Limits.Count == 0 ? 0 : panel.Limits[0], 7, 0.06));
        Fit.Text(canvas, pens, panel.Title, data.Left, data.Top - 44, SKTextAlign.Left, Ink.PanelTitlePx, Ink.Text, data.Width);
        plot.TitleY(canvas, pens, panel.YTitle);
        plot.Grid(canvas, pens);
        foreach (double limit in panel.Limits)
        {
            pens.Line(canvas, Ink.Text, 1.8f, data.Left, plot.AtY(limit), data.Right, plot.AtY(limit), dashed: true);
        }

        bool isEmpty = true;
        foreach (LevelSeries series in panel.Series)
        {
            using SeriesStyle style = new(series.Detector);
            isEmpty &= !DrawSeries(canvas, pens, plot, series, style, panel);
        }

        if (isEmpty)
        {
            pens.Text(canvas, "no figure is defined", data.MidX, data.Top + 60, SKTextAlign.Center, Ink.PanelTitlePx, Ink.Frame);
        }

        float bottom = data.Bottom + StripPx(panel);
        DrawStrip(canvas, pens, plot, panel, bottom);
        plot.Frame(canvas, pens, bottom);
        Fit.Text(canvas, pens, panel.XTitle, data.MidX, bottom + 58, SKTextAlign.Center, Ink.MarkLabelPx, Ink.Text, data.Width + 60);
    }

    private static bool DrawSeries(SKCanvas canvas, Pens pens, Plotting plot, LevelSeries series, SeriesStyle style, LevelPanel panel)
    {
        (double Level, double Figure)[] known = [.. series.Levels.Where(l => l.Figure is not null).Select(l => (l.Level, l.Figure!.Value))];
        IReadOnlyList<(double Level, double Figure)> line = series.Curve.Count > 1 ? series.Curve : known;
        style.Line(canvas, [.. line.Where(p => double.IsFinite(p.Figure)).Select(p => new SKPoint(plot.InsideX(p.Level), plot.InsideY(p.Figure)))]);
        if (series.FailureLevel is double level && panel.Limits.Count > 0)
        {
            // Of two limits the one on whose side the figures lie.
            bool isBelowZero = known.Any(k => k.Figure < 0) && known.All(k => k.Figure <= 0);
            float from = plot.InsideY(isBelowZero ? panel.Limits[^1] : panel.Limits[0]);
            pens.Line(canvas, style.Color, 1.4f, plot.InsideX(level), from, plot.InsideX(level), plot.Data.Bottom, dashed: true);
        }

        float size = series.Levels.Count > 25 ? 4 : 5.5f;
        foreach ((double at, double? figure, Interval? interval) in series.Levels)
        {
            if (interval is Interval i && double.IsFinite(i.Low) && double.IsFinite(i.High))
            {
                style.UprightBar(canvas, plot.AtX(at), plot.InsideY(i.High), plot.InsideY(i.Low), plot.IsOnY(i.High), plot.IsOnY(i.Low));
            }

            if (figure is double f && double.IsFinite(f))
            {
                style.Sign(canvas, plot.AtX(at), plot.InsideY(f), size);
            }
        }

        return known.Length > 0;
    }

    private static void DrawStrip(SKCanvas canvas, Pens pens, Plotting plot, LevelPanel panel, float bottom)
    {
        if (bottom <= plot.Data.Bottom)
        {
            return;
        }

        SKRect strip = new(plot.Data.Left, plot.Data.Bottom, plot.Data.Right, bottom);
        pens.Frame(canvas, Ink.Frame, strip);
        float y = strip.Top + 5 + (RowPx / 2f);
        foreach (LevelSeries series in panel.Series.Where(s => s.FailureLevel is not null))
        {
            using SeriesStyle style = new(series.Detector);
            if (series.FailureInterval is Interval interval)
            {
                bool isOpenLeft = !(plot.X.Share(interval.Low) >= 0);
                bool isOpenRight = !(plot.X.Share(interval.High) <= 1);
                float left = isOpenLeft ? strip.Left + 2 : plot.AtX(interval.Low);
                float right = isOpenRight ? strip.Right - 2 : plot.AtX(interval.High);
                style.LevelBar(canvas, left, right, y, isOpenLeft, isOpenRight);
            }

            style.Sign(canvas, plot.InsideX(series.FailureLevel!.Value), y);
            y += RowPx;
        }
    }

    private static Span Xs(LevelPanel panel)
    {
        Span span = new();
        foreach (LevelSeries series in panel.Series)
        {
            foreach ((double level, double? _, Interval? _) in series.Levels)
            {
                span.Include(level);
            }
        }

        return span;
    }

    private static Span Ys(LevelPanel panel)
    {
        Span span = new();
        foreach (double limit in panel.Limits)
        {
            span.Include(limit);
        }

        foreach (LevelSeries series in panel.Series)
        {
            foreach ((double _, double? figure, Interval? interval) in series.Levels)
            {
                span.Include(figure ?? double.NaN);
                span.Include(interval?.Low ?? double.NaN);
                span.Include(interval?.High ?? double.NaN);
            }
        }

        return span;
    }
}
