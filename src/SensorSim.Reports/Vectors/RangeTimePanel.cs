// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Vectors;

/// <summary>Ranges that values must lie in as pairs of lines, values as filled dots.</summary>
internal sealed class RangeTimePanel : TimePanel
{
    private readonly (double BeginS, double EndS, double Low, double High)[] _ranges;
    private readonly double[] _timesS;
    private readonly double[] _values;

    /// <summary>Creates the panel.</summary>
    /// <param name="title">What is shown.</param>
    /// <param name="unit">Its unit.</param>
    /// <param name="ranges">Ranges, in any order.</param>
    /// <param name="timesS">Times of the values [s], ascending.</param>
    /// <param name="values">Values, as many as times.</param>
    internal RangeTimePanel(string title, string unit, (double BeginS, double EndS, double Low, double High)[] ranges, double[] timesS, double[] values)
    {
        Check(title, timesS, values);
        Title = WithUnit(title, unit);
        _ranges = ranges;
        _timesS = timesS;
        _values = values;
    }

    internal override string Title { get; }

    internal override IReadOnlyList<LegendEntry> Legend =>
    [
        .. _ranges.Length > 0 ? [new LegendEntry(Symbol.BlueLine, "allowed between")] : Array.Empty<LegendEntry>(),
        .. _values.Length > 0 ? [new LegendEntry(Symbol.FilledDot, "the library's readings")] : Array.Empty<LegendEntry>(),
    ];

    internal override Span Times
    {
        get
        {
            Span span = new();
            span.Include(_timesS);
            span.Include(Array.ConvertAll(_ranges, r => r.BeginS));
            span.Include(Array.ConvertAll(_ranges, r => r.EndS));
            return span;
        }
    }

    internal override Span Heights
    {
        get
        {
            Span span = new();
            span.Include(_values);
            span.Include(Array.ConvertAll(_ranges, r => r.Low));
            span.Include(Array.ConvertAll(_ranges, r => r.High));
            return span;
        }
    }

    internal override void AddTo(PanelPlot plot, (double Low, double High) times)
    {
        foreach ((double begin, double end, double low, double high) in _ranges)
        {
            foreach (double limit in new[] { low, high }.Where(double.IsFinite))
            {
                plot.Line([begin, end], [limit, limit], Ink.Truth, Ink.MarkWidthPx);
            }
        }
    }

    internal override void DrawMarks(SKCanvas canvas, Pens pens, PanelPlot plot, SKRect data, (double Low, double High) times)
    {
        for (int i = 0; i < _timesS.Length; i++)
        {
            SKPoint at = plot.At(_timesS[i], _values[i]);
            pens.Dot(canvas, at.X, at.Y, 1);
        }
    }
}
