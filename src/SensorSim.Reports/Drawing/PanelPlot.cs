// SPDX-License-Identifier: MIT
using ScottPlot;
using ScottPlot.Plottables;
using ScottPlot.Rendering.RenderActions;
using ScottPlot.TickGenerators;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>One pair of axes in the house style: the plotting package draws axes, grid, lines and bars.</summary>
internal sealed class PanelPlot : IDisposable
{
    // The package centres a label's box, accents and descenders included; digits have neither and look too high.
    private const float TickLabelDownPx = 2.5f;

    private readonly Plot _plot = new();
    private readonly (double Low, double High) _x;
    private readonly (double Low, double High) _y;
    private SKRect _data;

    /// <param name="x">Range of the horizontal axis.</param>
    /// <param name="y">Range of the vertical axis.</param>
    /// <param name="xTicks">Most intervals between ticks of the horizontal axis.</param>
    /// <param name="yTicks">Most intervals between ticks of the vertical axis.</param>
    /// <param name="hasXLabels">Whether the ticks of the horizontal axis carry numbers.</param>
    /// <param name="smallestYStep">1 for counts, which have no fractions; 0 for anything else.</param>
    internal PanelPlot(
        (double Low, double High) x, (double Low, double High) y, int xTicks, int yTicks, bool hasXLabels, double smallestYStep = 0)
    {
        _x = x;
        _y = y;
        _plot.Axes.SetLimits(x.Low, x.High, y.Low, y.High);
        _plot.Layout.Fixed(new PixelPadding(0, 0, 0, 0));
        _plot.Grid.MajorLineColor = Ink.Plot(Ink.Grid);
        _plot.Grid.MajorLineWidth = 1;

        double xStep = NiceTicks.Step(x.High - x.Low, xTicks);
        double[] xAt = NiceTicks.Positions(x.Low, x.High, xStep);
        Style(_plot.Axes.Bottom, xAt, hasXLabels ? NiceTicks.Labels(xAt, xStep) : Array.ConvertAll(xAt, _ => ""));
        double yStep = Math.Max(smallestYStep, NiceTicks.Step(y.High - y.Low, yTicks));
        double[] yAt = NiceTicks.Positions(y.Low, y.High, yStep);
        Style(_plot.Axes.Left, yAt, NiceTicks.Labels(yAt, yStep));
        _plot.Axes.Left.TickLabelStyle.OffsetY = TickLabelDownPx;
        Style(_plot.Axes.Top, [], []);
        Style(_plot.Axes.Right, [], []);
    }

    /// <summary>Hides the numbers of the vertical axis, where they would mean nothing.</summary>
    internal void HideYTicks() => _plot.Axes.Left.TickGenerator = new NumericManual([], []);

    /// <summary>Sets the numbers of the vertical axis, where its places are not what they are called.</summary>
    internal void LabelY(double[] positions, string[] labels) => _plot.Axes.Left.TickGenerator = new NumericManual(positions, labels);

    /// <summary>A stretch of a signal; at most four points a pixel column are drawn, so long ones cost no more.</summary>
    internal void Line(double[] xs, double[] ys, SKColor color, float widthPx)
    {
        SignalXY line = _plot.Add.SignalXY(xs, ys);
        line.Color = Ink.Plot(color);
        line.LineWidth = widthPx;
        line.MarkerSize = 0;
    }

    /// <summary>One sample between gaps.</summary>
    internal void Point(double x, double y, SKColor color) =>
        _plot.Add.Marker(x, y, MarkerShape.FilledCircle, 4, Ink.Plot(color));

    /// <summary>Shades a stretch of the horizontal axis.</summary>
    internal void Shade(double from, double to)
    {
        HorizontalSpan span = _plot.Add.HorizontalSpan(from, to);
        span.FillStyle.Color = Ink.Plot(Ink.Gap);
        span.LineStyle.Width = 0;
    }

    internal void Bar(double from, double to, double height)
    {
        Rectangle bar = _plot.Add.Rectangle(from, to, 0, height);
        bar.FillColor = Ink.Plot(Ink.Bar);
        bar.LineColor = Ink.Plot(Ink.Paper);
        bar.LineWidth = 1;
    }

    /// <summary>Draws the axes around <paramref name="data"/>; labels go outside of it.</summary>
    internal void Draw(SKCanvas canvas, SKRect data)
    {
        // The package's own render call draws everything twice the first time (its layout then counts as changed):
        // twice the time, and an SVG with each text twice. These are its steps for one pass.
        IRenderAction[] steps =
        [
            new ReplaceNullAxesWithDefaults(),
            new CalculateLayout(),
            new RegenerateTicks(),
            new RenderGridsBelowPlottables(),
            new RenderPlottables(),
            new RenderPanels(),
        ];
        using RenderPack pack = new(_plot, new PixelRect(data.Left, data.Right, data.Bottom, data.Top), canvas);
        foreach (IRenderAction step in steps)
        {
            canvas.Save();
            step.Render(pack);
            canvas.Restore();
        }

        _data = data;
    }

    /// <summary>Where a point lies on the page; known once the axes are drawn.</summary>
    internal SKPoint At(double x, double y) => new(
        (float)(_data.Left + (_data.Width * (x - _x.Low) / (_x.High - _x.Low))),
        (float)(_data.Bottom - (_data.Height * (y - _y.Low) / (_y.High - _y.Low))));

    public void Dispose() => _plot.Dispose();

    private static void Style(IAxis axis, double[] positions, string[] labels)
    {
        axis.TickGenerator = new NumericManual(positions, labels);
        axis.TickLabelStyle.FontName = PlotFont.FamilyName;
        axis.TickLabelStyle.FontSize = Ink.TextPx;
        axis.TickLabelStyle.ForeColor = Ink.Plot(Ink.Text);
        axis.FrameLineStyle.Width = 0;
        axis.MajorTickStyle.Color = Ink.Plot(Ink.Frame);
        axis.MajorTickStyle.Length = 5;
        axis.MinorTickStyle.Length = 0;
    }
}
