// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Vectors;

/// <summary>Rows under one another, each with a line of text and a bar of time below it.</summary>
internal sealed class LanesTimePanel : TimePanel
{
    private const float LanePx = 50;
    private const float TextPx = 20;
    private const float TextDownPx = 20;
    private const float BarTopPx = 28;
    private const float BarBottomPx = 44;
    private const float FreePx = 10;

    private readonly IReadOnlyList<CaseLane> _lanes;

    /// <summary>Creates the panel.</summary>
    /// <param name="lanes">Its rows, from the top, at least one.</param>
    internal LanesTimePanel(IReadOnlyList<CaseLane> lanes) => _lanes = lanes;

    internal override string Title => "asked and answered";

    internal override IReadOnlyList<LegendEntry> Legend
    {
        get
        {
            List<LegendEntry> legend = [];
            Add(_lanes.Any(l => l.Forbidden.Count > 0), Symbol.PaleBox, "nothing may be given");
            Add(_lanes.Any(l => l.Wanted.Count > 0), Symbol.HollowBox, "must be given within");
            Add(_lanes.Any(l => l.Open.Count > 0), Symbol.VermilionLine, "the library's gate is open");
            Add(_lanes.Any(l => l.Given.Count > 0), Symbol.FilledTriangle, "the library's answers");
            return legend;

            void Add(bool isShown, Symbol symbol, string text)
            {
                if (isShown)
                {
                    legend.Add(new LegendEntry(symbol, text));
                }
            }
        }
    }

    internal override Span Times => new();

    internal override Span Heights
    {
        get
        {
            Span span = new();
            span.Include(0);
            span.Include(1);
            return span;
        }
    }

    internal override bool HasNumbers => false;

    internal override float? OwnHeightPx => (_lanes.Count * LanePx) + 4;

    internal override void AddTo(PanelPlot plot, (double Low, double High) times)
    {
        // Rows have no height of their own: all is drawn on top.
    }

    internal override void DrawMarks(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, (double Low, double High) times)
    {
        for (int i = 0; i < _lanes.Count; i++)
        {
            float top = data.Top + (i * LanePx);
            if (i > 0)
            {
                pens.Line(canvas, Ink.Grid, 1, data.Left, top, data.Right, top);
            }

            DrawLane(canvas, pens, plot, data, times, _lanes[i], top);
        }
    }

    private static void DrawLane(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, (double Low, double High) times, CaseLane lane, float top)
    {
        foreach ((double begin, double end) in lane.Forbidden)
        {
            pens.Box(canvas, Ink.TruthPale, Bar(begin, end));
            pens.Frame(canvas, Ink.Truth, Bar(begin, end));
        }

        foreach ((double begin, double end) in lane.Wanted)
        {
            pens.Frame(canvas, Ink.Truth, Bar(begin, end));
        }

        float middle = top + ((BarTopPx + BarBottomPx) / 2);
        foreach ((double begin, double end) in lane.Open)
        {
            pens.Line(canvas, Ink.Detected, Ink.MarkWidthPx * 2, X(begin), middle, X(end), middle);
        }

        // The text comes first; a word that would touch it goes beside its answer, one that touches another word is left out.
        pens.Text(canvas, lane.Text, data.Left + FreePx, top + TextDownPx, SKTextAlign.Left, TextPx, Ink.Text);
        float free = data.Left + (2 * FreePx) + TitleRow.Width(lane.Text, TextPx);
        float textEnd = free;
        (double TimeS, string Word)[] given = [.. lane.Given.Where(g => g.TimeS >= times.Low && g.TimeS <= times.High)];
        for (int i = 0; i < given.Length; i++)
        {
            float x = plot.At(given[i].TimeS, 0).X;
            pens.Triangle(canvas, x, top + BarBottomPx);
            string word = given[i].Word;
            float width = TitleRow.Width(word, TextPx);
            float left = Math.Min(x - (width / 2), data.Right - width - 2);
            float next = i + 1 < given.Length ? plot.At(given[i + 1].TimeS, 0).X : data.Right;
            if (left >= free)
            {
                pens.Text(canvas, word, left, top + TextDownPx, SKTextAlign.Left, TextPx, Ink.Detected);
                free = left + width + FreePx;
            }
            else if (left < textEnd && x + width + (4 * Pens.TrianglePx) < next && !lane.Open.Any(o => X(o.BeginS) < x + width + (2 * Pens.TrianglePx) && X(o.EndS) > x))
            {
                pens.Text(canvas, word, x + (1.5f * Pens.TrianglePx), top + BarBottomPx - 1, SKTextAlign.Left, TextPx, Ink.Detected);
            }
        }

        float X(double seconds) => Math.Clamp(plot.At(seconds, 0).X, data.Left, data.Right);

        SKRect Bar(double begin, double end) => new(X(begin), top + BarTopPx, X(end), top + BarBottomPx);
    }
}
