// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>Headline of a chart, and under it the names of the detectors with their signs, in as many lines as they need.</summary>
internal sealed class ChartHead
{
    private const float LeftPx = 96;
    private const float TextPx = 19;
    private const float SignPx = 46;
    private const float BetweenPx = 30;
    private const int LinePx = 30;
    private const int TitlePx = 56;

    private readonly string _title;
    private readonly List<(int Style, string Text, float X, int Line)> _entries = [];

    internal ChartHead(string title, IReadOnlyList<string> labels)
    {
        _title = title;
        float x = LeftPx;
        int line = 0;
        float most = Ink.WidthPx - Ink.RightPx - LeftPx - SignPx - 10;
        for (int i = 0; i < labels.Count; i++)
        {
            string text = Fit.Cut(labels[i], TextPx, most);
            float width = SignPx + 10 + TitleRow.Width(text, TextPx);
            if (x > LeftPx && x + width > Ink.WidthPx - Ink.RightPx)
            {
                x = LeftPx;
                line++;
            }

            _entries.Add((i, text, x, line));
            x += width + BetweenPx;
        }

        HeightPx = TitlePx + (labels.Count == 0 ? 0 : ((line + 1) * LinePx) + 6);
    }

    internal int HeightPx { get; }

    internal void Draw(SKCanvas canvas, Pens pens)
    {
        Fit.Text(canvas, pens, _title, LeftPx, 40, SKTextAlign.Left, Ink.FigureTitlePx, Ink.Text, Ink.WidthPx - Ink.RightPx - LeftPx);
        foreach ((int index, string text, float x, int line) in _entries)
        {
            using SeriesStyle style = new(index);
            float y = TitlePx + 20 + (line * LinePx);
            style.Line(canvas, [new SKPoint(x, y - 6), new SKPoint(x + SignPx, y - 6)]);
            style.Sign(canvas, x + (SignPx / 2), y - 6);
            pens.Text(canvas, text, x + SignPx + 10, y, SKTextAlign.Left, TextPx, Ink.Text);
        }
    }
}
