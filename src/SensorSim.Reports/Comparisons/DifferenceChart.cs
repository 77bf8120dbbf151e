// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Reports.Drawing;
using SensorSim.Reports.StudyReports;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Comparisons;
using SkiaSharp;

namespace SensorSim.Reports.Comparisons;

/// <summary>Differences with intervals, one under the other, turned so that better lies to the right; each has a scale of its own.</summary>
internal sealed class DifferenceChart : Chart
{
    private const float LeftPx = 520;
    private const float RightPx = 560;
    private const float VerdictPx = 200;
    private const float EdgePx = 20;
    private const int RowPx = 44;
    private const int FooterPx = 56;
    private const float TextPx = 17;

    private readonly ChartHead _head;
    private readonly PairedDifference[] _rows;

    internal DifferenceChart(string title, IReadOnlyList<PairedDifference> differences)
    {
        _head = new ChartHead(title, []);
        _rows = [.. differences];
    }

    internal override int HeightPx => _head.HeightPx + (Math.Max(1, _rows.Length) * RowPx) + FooterPx;

    internal override void Draw(SKCanvas canvas, Pens pens)
    {
        _head.Draw(canvas, pens);
        float middle = (LeftPx + Ink.WidthPx - RightPx) / 2;
        float bottom = _head.HeightPx + (_rows.Length * RowPx);
        pens.Line(canvas, Ink.Text, 1.8f, middle, _head.HeightPx, middle, bottom, dashed: true);
        string[] names = [.. _rows.Select(r => RequirementWords.Figure(r.Figure.OnRow))];
        string[] numbers = [.. _rows.Select(NumbersOf)];

        // One size for a column: the longest text decides it for all.
        float namePx = Fit.Size(names, Ink.MarkLabelPx, LeftPx - (3 * EdgePx));
        float numberPx = Fit.Size(numbers, TextPx, RightPx - VerdictPx - (2 * EdgePx));
        for (int i = 0; i < _rows.Length; i++)
        {
            float y = _head.HeightPx + ((i + 0.5f) * RowPx);
            pens.Text(canvas, Fit.Cut(names[i], namePx, LeftPx - (3 * EdgePx)), LeftPx - EdgePx, y + 6, SKTextAlign.Right, namePx, Ink.Text);
            pens.Text(canvas, numbers[i], Ink.WidthPx - RightPx + EdgePx, y + 6, SKTextAlign.Left, numberPx, Ink.Text);
            pens.Text(canvas, _rows[i].Verdict.Text(), Ink.WidthPx - VerdictPx, y + 6, SKTextAlign.Left, TextPx, Ink.Text);
            DrawBar(canvas, _rows[i], middle, y);
        }

        pens.Text(canvas, "second worse", LeftPx, bottom + 34, SKTextAlign.Left, TextPx, Ink.Text);
        pens.Text(canvas, "no difference", middle, bottom + 34, SKTextAlign.Center, TextPx, Ink.Text);
        pens.Text(canvas, "second better", Ink.WidthPx - RightPx, bottom + 34, SKTextAlign.Right, TextPx, Ink.Text);
    }

    private static string NumbersOf(PairedDifference row)
    {
        (string difference, string interval) = ComparisonTexts.Told(row.Difference, row.Interval);
        return row.Difference is null ? "undefined" : row.Interval is null ? difference : $"{difference} ({interval})";
    }

    private static void DrawBar(SKCanvas canvas, PairedDifference row, float middle, float y)
    {
        if (row.Difference is not double difference)
        {
            return;
        }

        double gain = row.Figure.Gain(difference);
        double a = row.Interval is Interval i ? row.Figure.Gain(i.Low) : gain;
        double b = row.Interval is Interval j ? row.Figure.Gain(j.High) : gain;
        double most = Math.Max(Math.Abs(gain), Math.Max(Math.Abs(a), Math.Abs(b)));
        float scale = most > 0 ? (float)(0.92 * (middle - LeftPx) / most) : 0;
        using SeriesStyle style = new(ComparedPair.Second);
        style.LevelBar(canvas, middle + (scale * (float)Math.Min(a, b)), middle + (scale * (float)Math.Max(a, b)), y, false, false);
        style.Sign(canvas, middle + (scale * (float)gain), y);
    }
}
