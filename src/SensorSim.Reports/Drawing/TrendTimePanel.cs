// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Truth as a thin line, readings as filled dots.</summary>
internal sealed class TrendTimePanel : TimePanel
{
    private const int DensePoints = 400;

    private readonly TrendPanel _panel;

    internal TrendTimePanel(TrendPanel panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        Check(panel.Title, panel.TruthTimesS, panel.TruthValues);
        Check(panel.Title, panel.ReadingTimesS, panel.ReadingValues);
        _panel = panel;
    }

    internal override string Title => WithUnit(_panel.Title, _panel.Unit);

    internal override IReadOnlyList<LegendEntry> Legend
    {
        get
        {
            List<LegendEntry> legend = [];
            if (_panel.TruthValues.Any(double.IsFinite))
            {
                legend.Add(new LegendEntry(Symbol.BlueLine, _panel.TruthLegend));
            }

            if (_panel.ReadingValues.Any(double.IsFinite))
            {
                legend.Add(new LegendEntry(Symbol.FilledDot, _panel.ReadingLegend));
            }

            return legend;
        }
    }

    // Dots at the first and the last moment are drawn whole.
    internal override double FreeTimeShare => 0.01;

    internal override Span Times
    {
        get
        {
            Span span = new();
            span.Include(_panel.TruthTimesS);
            span.Include(_panel.ReadingTimesS);
            return span;
        }
    }

    internal override Span Heights
    {
        get
        {
            Span span = new();
            span.Include(_panel.TruthValues);
            span.Include(_panel.ReadingValues);
            return span;
        }
    }

    internal override void AddTo(PanelPlot plot, (double Low, double High) times)
    {
        // Beats are not evenly spaced: only NaN breaks this line.
        int first = 0;
        float widthPx = _panel.TruthValues.Length > DensePoints ? Ink.SignalWidthPx : Ink.MarkWidthPx;
        for (int i = 0; i <= _panel.TruthValues.Length; i++)
        {
            if (i < _panel.TruthValues.Length && double.IsFinite(_panel.TruthValues[i]))
            {
                continue;
            }

            if (i - first > 1)
            {
                plot.Line(_panel.TruthTimesS[first..i], _panel.TruthValues[first..i], Ink.Truth, widthPx);
            }
            else if (i - first == 1)
            {
                plot.Point(_panel.TruthTimesS[first], _panel.TruthValues[first], Ink.Truth);
            }

            first = i + 1;
        }
    }

    internal override void DrawMarks(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, (double Low, double High) times)
    {
        float scale = Math.Clamp(data.Width / Math.Max(1, _panel.ReadingValues.Length) / (2 * Pens.DotRadiusPx), 0.35f, 1);
        foreach (int i in DenseReadings.Shown(_panel.ReadingValues, j => (int)plot.At(_panel.ReadingTimesS[j], 0).X))
        {
            SKPoint at = plot.At(_panel.ReadingTimesS[i], _panel.ReadingValues[i]);
            pens.Dot(canvas, at.X, at.Y, scale);
        }
    }
}
