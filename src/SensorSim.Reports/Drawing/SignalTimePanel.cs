// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>A signal with its true and its detected events.</summary>
internal sealed class SignalTimePanel : TimePanel
{
    private readonly SignalPanel _panel;
    private readonly List<Run> _runs;
    private readonly (double From, double To)[] _gaps;

    internal SignalTimePanel(SignalPanel panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        Check(panel.Title, panel.TimesS, panel.Values);
        _panel = panel;
        _runs = Runs.Of(panel.TimesS, panel.Values);
        _gaps = Runs.Gaps(panel.TimesS, _runs);
    }

    internal override string Title => WithUnit(_panel.Title, _panel.Unit);

    internal override IReadOnlyList<LegendEntry> Legend
    {
        get
        {
            List<LegendEntry> legend = [];
            AddEntries(legend, _panel.TruthMarks, _panel.TruthLegend, Symbol.HollowCircle, Symbol.VerticalLine);
            AddEntries(legend, _panel.DetectedMarks, _panel.DetectedLegend, Symbol.FilledDiamond, Symbol.FilledTriangle);
            if (_gaps.Length > 0)
            {
                legend.Add(new LegendEntry(Symbol.GreyBox, "no samples"));
            }

            return legend;
        }
    }

    internal override Span Times
    {
        get
        {
            Span span = new();
            span.Include(_panel.TimesS);
            return span;
        }
    }

    internal override Span Heights
    {
        get
        {
            Span span = new();
            span.Include(_panel.Values);
            return span;
        }
    }

    internal override int LabelLines => HasLabels(_panel.DetectedMarks) ? 2 : HasLabels(_panel.TruthMarks) ? 1 : 0;

    internal override void AddTo(PanelPlot plot, (double Low, double High) times)
    {
        foreach ((double from, double to) in _gaps)
        {
            plot.Shade(from, to);
        }

        foreach (Run run in _runs)
        {
            if (run.Length == 1)
            {
                plot.Point(_panel.TimesS[run.First], _panel.Values[run.First], Ink.Signal);
                continue;
            }

            Range range = run.First..(run.First + run.Length);
            plot.Line(_panel.TimesS[range], _panel.Values[range], Ink.Signal, Ink.SignalWidthPx);
        }
    }

    internal override void DrawMarks(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, (double Low, double High) times)
    {
        float scale = MarkScale(data, Math.Max(_panel.TruthMarks.Count, _panel.DetectedMarks.Count));
        foreach (PlotMark mark in Visible(_panel.TruthMarks, times))
        {
            SKPoint at = plot.At(mark.TimeS, Height(mark));
            if (HasValue(mark))
            {
                pens.Circle(canvas, at.X, Inside(at.Y, data), scale);
            }
            else
            {
                pens.Line(canvas, Ink.Truth, 1.6f, at.X, data.Top, at.X, data.Bottom);
            }
        }

        foreach (PlotMark mark in Visible(_panel.DetectedMarks, times))
        {
            SKPoint at = plot.At(mark.TimeS, Height(mark));
            if (HasValue(mark))
            {
                pens.Diamond(canvas, at.X, Inside(at.Y, data), scale);
            }
            else
            {
                pens.Triangle(canvas, at.X, data.Bottom);
            }
        }

        MarkLabels.Draw(canvas, pens, plot, data, Visible(_panel.TruthMarks, times), Ink.Truth, 0);
        MarkLabels.Draw(canvas, pens, plot, data, Visible(_panel.DetectedMarks, times), Ink.Detected, 1);
    }

    /// <summary>Full size while marks have room, down to a third of it where hundreds share the width.</summary>
    internal static float MarkScale(SKRect data, int marks) =>
        Math.Clamp(data.Width / Math.Max(1, marks) / (2.8f * Pens.CircleRadiusPx), 0.35f, 1);

    private static bool HasLabels(IReadOnlyList<PlotMark> marks) => marks.Any(mark => !string.IsNullOrEmpty(mark.Label));

    private static bool HasValue(PlotMark mark) => mark.Value is double value && double.IsFinite(value);

    private static double Height(PlotMark mark) => HasValue(mark) ? mark.Value!.Value : 0;

    // A mark far outside the signal's range would squash the signal if the axis followed it: it sticks to the edge.
    private static float Inside(float y, SKRect data) => Math.Clamp(y, data.Top, data.Bottom);

    private static IEnumerable<PlotMark> Visible(IReadOnlyList<PlotMark> marks, (double Low, double High) times) =>
        marks.Where(mark => mark.TimeS >= times.Low && mark.TimeS <= times.High);

    private static void AddEntries(List<LegendEntry> legend, IReadOnlyList<PlotMark> marks, string text, Symbol valued, Symbol bare)
    {
        if (marks.Any(HasValue))
        {
            legend.Add(new LegendEntry(valued, text));
        }

        if (marks.Any(mark => !HasValue(mark)))
        {
            legend.Add(new LegendEntry(bare, text));
        }
    }
}
